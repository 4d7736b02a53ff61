package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Numbers;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.Dispersion;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.logistic.Separation;
import org.fairtray.trial.Treatment;

/**
 * The logistic models of a count: fixed blocks and all terms, and each term left out of the model that holds every term
 * not containing it.
 */
public final class LogisticPart {
    private final Structure structure;
    private final Cells cells;
    private final List<Count> counts;
    private final double alpha;
    private final Model model;
    private final List<Integer> separated;
    private final LogisticFit fit;
    private final double pearson;
    private final List<TermDeviance> deviances;
    private final List<Double> dispersions;

    /** What leaving a term out costs. */
    public record TermDeviance(Term term, int df, double deviance) {}

    private LogisticPart(Structure structure, List<Count> counts, double alpha) {
        this.structure = structure;
        this.cells = Cells.of(structure);
        this.counts = counts;
        this.alpha = alpha;
        this.model = Model.of(cells, structure.terms());
        this.separated = Separation.rows(model.matrix(), counts);
        if (separated.isEmpty()) {
            this.fit = LogisticFit.of(model.matrix(), counts);
            this.pearson = Dispersion.pearson(counts, fit.rates());
            this.deviances = structure.terms().stream()
                    .map(this::deviance)
                    .flatMap(Optional::stream)
                    .toList();
            this.dispersions = Dispersion.byStratum(counts, fit.rates(), structure.strata(), residualDf());
        } else {
            this.fit = null;
            this.pearson = 0;
            this.deviances = List.of();
            this.dispersions = List.of();
        }
    }

    public static LogisticPart of(Structure structure, List<Count> counts, double alpha) {
        return new LogisticPart(structure, counts, alpha);
    }

    private List<Integer> residualDf() {
        return IntStream.range(0, structure.strata().size())
                .map(structure.decomposition()::residualDf)
                .boxed()
                .toList();
    }

    private Optional<TermDeviance> deviance(Term term) {
        var without = structure.terms().stream().filter(t -> !t.contains(term)).toList();
        var with = new ArrayList<>(without);
        with.add(term);
        var small = Model.of(cells, without);
        var large = Model.of(cells, with);
        int df = large.matrix().width() - small.matrix().width();
        if (df == 0) {
            return Optional.empty();
        }
        double lost = LogisticFit.of(small.matrix(), counts).deviance()
                - LogisticFit.of(large.matrix(), counts).deviance();
        return Optional.of(new TermDeviance(term, df, Math.max(0, lost)));
    }

    /** Whether every estimate is finite. */
    public boolean isFinite() {
        return fit != null;
    }

    public Model model() {
        return model;
    }

    public Estimates estimates() {
        return fit.estimates();
    }

    public double fittedRate(int tray) {
        return fit.fittedRate(tray);
    }

    /** Pearson's dispersion of the whole; empty without residual degrees of freedom. */
    public Optional<Double> dispersion() {
        return fit == null || fit.residualDf() == 0 ? Optional.empty() : Optional.of(pearson / fit.residualDf());
    }

    /** The dispersion between the units of a stratum; null where none is left over. */
    public Double dispersion(int stratum) {
        return dispersions.get(stratum);
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

    public Optional<TermDeviance> devianceOf(Term term) {
        return deviances.stream().filter(d -> d.term().equals(term)).findFirst();
    }

    /** The same as findings; binomial and quasi are left out where estimates are infinite. */
    public Findings.Logistic findings() {
        Map<String, Findings.Fit> fits = new LinkedHashMap<>();
        if (isFinite()) {
            fits.put("binomial", binomial());
            dispersion().ifPresent(d -> fits.put("quasi", quasi(d)));
        }
        return new Findings.Logistic(used(fits), why(fits), separationInWords(), fits);
    }

    private static String used(Map<String, Findings.Fit> fits) {
        return fits.containsKey("quasi") ? "quasi" : null;
    }

    private String why(Map<String, Findings.Fit> fits) {
        if (!isFinite()) {
            return "No logistic fit is used, because some rates are 0 or 100 % throughout and their odds have no finite"
                    + " estimate; effects and tests come from the analysis of variance instead.";
        }
        if (!fits.containsKey("quasi")) {
            return "No logistic fit is used, because no two trays were treated alike: how much trays differ by themselves"
                    + " is not known, and to count on seeds alone would claim too much.";
        }
        return "Seeds of one tray are alike, so the logistic model with its variances multiplied by the measured"
                + " dispersion is used, each term with the dispersion between the units it was given to.";
    }

    private String separationInWords() {
        if (isFinite()) {
            return null;
        }
        var none = new LinkedHashMap<Map<String, String>, Count>();
        separated.forEach(i -> none.merge(structure.trays().get(i).treatment().levels(), counts.get(i), Count::plus));
        var words = none.entrySet().stream()
                .map(e -> new Treatment(e.getKey()).describe() + " ("
                        + e.getValue().successes() + " of " + e.getValue().trials() + ")")
                .toList();
        return "All or none came out in: " + String.join("; ", words)
                + ". The odds there are 0 or infinite, so no coefficients are shown.";
    }

    private Findings.BinomialFit binomial() {
        var terms = deviances.stream()
                .map(d -> new Findings.LogisticTerm(
                        d.term().name(),
                        d.term().factors(),
                        d.df(),
                        "likelihood ratio",
                        d.deviance(),
                        Tail.chiSquared(d.deviance(), d.df())))
                .toList();
        return new Findings.BinomialFit(
                terms,
                coefficients(1, Tail.normalQuantile(1 - alpha / 2)),
                fit.logLikelihood(),
                fit.deviance(),
                fit.residualDf(),
                pearson);
    }

    private Findings.QuasiFit quasi(double dispersion) {
        int rest = fit.residualDf();
        var terms = deviances.stream().map(d -> quasiTerm(d, dispersion, rest)).toList();
        return new Findings.QuasiFit(dispersion, terms, coefficients(dispersion, Tail.tQuantile(1 - alpha / 2, rest)));
    }

    /** With a dispersion of 0, where trays fit exactly, there is nothing to divide by. */
    private static Findings.LogisticTerm quasiTerm(TermDeviance term, double dispersion, int rest) {
        Double f = Numbers.orNull(term.deviance() / term.df() / dispersion);
        return new Findings.LogisticTerm(
                term.term().name(),
                term.term().factors(),
                term.df(),
                "f",
                f,
                f == null ? null : Double.valueOf(Tail.f(f, term.df(), rest)));
    }

    private List<Findings.Coefficient> coefficients(double dispersion, double quantile) {
        var names = model.matrix().names();
        var estimates = fit.estimates();
        return IntStream.range(0, names.size())
                .mapToObj(j -> {
                    double b = estimates.coefficient(j);
                    double error = estimates.standardError(j) * Math.sqrt(dispersion);
                    return new Findings.Coefficient(names.get(j), b, error, b - quantile * error, b + quantile * error);
                })
                .toList();
    }
}
