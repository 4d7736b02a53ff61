package org.fairtray.analysis.models;

import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import org.fairtray.analysis.models.StratumYardstick.MeanChange;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.logistic.Dispersion;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.logistic.PenalisedFit;
import org.fairtray.statistics.logistic.Separation;

/**
 * A count's logistic model with fixed blocks and all terms: by maximum likelihood, or by Firth's penalised likelihood
 * where some odds would be infinite. Each term is left out of the model that holds every term not containing it.
 */
public final class CountFits {
    /** Cochran (1954), Biometrics 10, 417-451: below five the usual approximations for counts begin to fail. */
    private static final int FEW = 5;

    private final Structure structure;
    private final Cells cells;
    private final List<Count> counts;
    private final Removals<Model> models;
    private final Removals<LogisticFit> plain;
    private final Removals<PenalisedFit> penalised;
    private final Model model;
    private final List<Integer> separated;
    private final Estimates estimates;
    private final double[] rates;
    private final List<TermChange> changes;
    private final List<Double> dispersions;

    /** What leaving a term out costs: twice the log-likelihood, penalised where odds would be infinite. */
    public record TermChange(Term term, int df, double value) {}

    private CountFits(Structure structure, List<Count> counts) {
        this.structure = structure;
        this.cells = Cells.of(structure);
        this.counts = counts;
        this.models = new Removals<>(structure.terms(), terms -> Model.of(cells, terms));
        this.plain = fits(LogisticFit::of);
        this.penalised = fits(PenalisedFit::of);
        this.model = models.all();
        this.separated = Separation.rows(model.matrix(), counts);
        if (separated.isEmpty()) {
            var fit = plain.all();
            this.estimates = fit.estimates();
            this.rates = fit.rates();
        } else {
            var fit = penalised.all();
            this.estimates = fit.estimates();
            this.rates = fit.rates();
        }
        this.changes = structure.terms().stream()
                .map(this::change)
                .flatMap(Optional::stream)
                .toList();
        this.dispersions = Dispersion.byStratum(counts, rates, structure.strata(), residualDf());
    }

    /** Fits the counts of a structure's trays. */
    public static CountFits of(Structure structure, List<Count> counts) {
        return new CountFits(structure, counts);
    }

    private List<Integer> residualDf() {
        return IntStream.range(0, structure.strata().size())
                .map(structure.decomposition()::residualDf)
                .boxed()
                .toList();
    }

    private Optional<TermChange> change(Term term) {
        int df = models.with(term).matrix().width()
                - models.without(term).matrix().width();
        if (df == 0) {
            return Optional.empty();
        }
        double value =
                isFinite() ? plain.without(term).deviance() - plain.with(term).deviance() : penalisedRatio(term);
        return Optional.of(new TermChange(term, df, Math.max(0, value)));
    }

    /** Fits of the counts, with fixed blocks, by another likelihood. */
    <F> Removals<F> fits(BiFunction<ModelMatrix, List<Count>, F> fitting) {
        return new Removals<>(
                structure.terms(), terms -> fitting.apply(models.of(terms).matrix(), counts));
    }

    /** The plain fit of all terms. */
    LogisticFit plain() {
        return plain.all();
    }

    /** The penalised fit of all terms. */
    PenalisedFit penalised() {
        return penalised.all();
    }

    /** Twice the penalised log-likelihood that a term adds, the penalty being that of the model with it. */
    double penalisedRatio(Term term) {
        var restricted = PenalisedFit.restricted(
                models.without(term).matrix(), models.with(term).matrix(), counts);
        return 2 * (penalised.with(term).penalisedLogLikelihood() - restricted.penalisedLogLikelihood());
    }

    /** Whether every estimate by maximum likelihood is finite. */
    public boolean isFinite() {
        return separated.isEmpty();
    }

    /** Whether some tray has fewer than {@value #FEW} successes or failures. */
    boolean isSparse() {
        return counts.stream().anyMatch(c -> Math.min(c.successes(), c.trials() - c.successes()) < FEW);
    }

    /** The rows whose odds would be 0 or infinite. */
    List<Integer> separated() {
        return separated;
    }

    Structure structure() {
        return structure;
    }

    Cells cells() {
        return cells;
    }

    List<Count> counts() {
        return counts;
    }

    public Model model() {
        return model;
    }

    /** Coefficients, with their covariance at dispersion 1. */
    public Estimates estimates() {
        return estimates;
    }

    public double fittedRate(int tray) {
        return rates[tray];
    }

    double[] rates() {
        return rates.clone();
    }

    /** What each term that can be estimated costs to leave out. */
    List<TermChange> changes() {
        return changes;
    }

    Optional<MeanChange> meanChange(Term term) {
        return changes.stream()
                .filter(c -> c.term().equals(term))
                .findFirst()
                .map(c -> new MeanChange(c.df(), c.value() / c.df()));
    }

    private int residual() {
        return counts.size() - model.matrix().width();
    }

    /** Pearson's dispersion of the whole; empty without residual degrees of freedom. */
    public Optional<Double> dispersion() {
        return residual() == 0 ? Optional.empty() : Optional.of(Dispersion.pearson(counts, rates) / residual());
    }

    /** Each term against the units of its own stratum, never below the spread that seeds alone give. */
    public Yardstick byStratum() {
        return new StratumYardstick(structure, model.matrix(), estimates, dispersions, 1, this::meanChange);
    }

    /**
     * The dispersion that the rate of some trays is measured with: that of each stratum, by the share of their sum that
     * lies in it. Strata with nothing left over are passed by; empty where all are.
     */
    public Optional<Double> dispersionOf(double[] indicator) {
        double weighted = 0;
        double weights = 0;
        for (int s = 0; s < dispersions.size(); s++) {
            if (dispersions.get(s) != null) {
                double weight = structure.strata().share(s, indicator);
                weighted += weight * dispersions.get(s);
                weights += weight;
            }
        }
        return weights > 0 ? Optional.of(weighted / weights) : Optional.empty();
    }
}
