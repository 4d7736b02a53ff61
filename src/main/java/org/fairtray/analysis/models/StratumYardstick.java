package org.fairtray.analysis.models;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Numbers;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * Each term is held against the units of the stratum that it lies in; a difference that lies in several strata against
 * all of them, each by its share, with Satterthwaite's degrees of freedom.
 *
 * <p>Sources: Nelder (1965), Proceedings of the Royal Society A 283, 147-178 (strata); Satterthwaite (1946), Biometrics
 * Bulletin 2, 110-114; Cochran and Cox (1957), Experimental Designs, 2nd ed., section 7.16 (differences in a split plot).
 */
public final class StratumYardstick implements Yardstick {
    /** A share this small is rounding. */
    private static final double ROUNDING = 1e-9;

    private final Structure structure;
    private final ModelMatrix matrix;
    private final Estimates estimates;
    private final Cholesky products;
    private final List<Double> dispersions;
    private final double least;
    private final Function<Term, Optional<MeanChange>> changes;

    /**
     * What leaving a term out costs, per degree of freedom, at dispersion 1.
     *
     * @param df degrees of freedom of the term
     * @param value a mean deviance, or a mean square
     */
    public record MeanChange(int df, double value) {}

    /**
     * @param matrix the columns of the model
     * @param estimates their coefficients, with the covariance at dispersion 1
     * @param dispersions by stratum; null where nothing is left over
     * @param least the smallest dispersion that a verdict may count on
     * @param changes what leaving a term out costs; empty where it can't be estimated
     */
    public StratumYardstick(
            Structure structure,
            ModelMatrix matrix,
            Estimates estimates,
            List<Double> dispersions,
            double least,
            Function<Term, Optional<MeanChange>> changes) {
        this.structure = structure;
        this.matrix = matrix;
        this.estimates = estimates;
        this.dispersions = dispersions;
        this.least = least;
        this.changes = changes;
        var ones = new double[matrix.height()];
        Arrays.fill(ones, 1);
        this.products = Cholesky.of(matrix.products(ones))
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"));
    }

    @Override
    public Optional<Spread> spread(double[] gradient, double[] contrast) {
        double[] shares = shares(contrast);
        double whole = Arrays.stream(shares).sum();
        double dispersion = 0;
        double squares = 0;
        double fewest = Double.POSITIVE_INFINITY;
        for (int s = 0; s < shares.length; s++) {
            double share = shares[s] / whole;
            if (share > ROUNDING) {
                if (dispersions.get(s) == null) {
                    return Optional.empty();
                }
                int df = structure.decomposition().residualDf(s);
                double part = share * dispersions.get(s);
                dispersion += part;
                squares += part * part / df;
                fewest = Math.min(fewest, df);
            }
        }
        double degrees = dispersion > 0 ? dispersion * dispersion / squares : fewest;
        double one = estimates.variance(gradient);
        double used = measurable(dispersion);
        return !(used > 0 && one > 0) ? Optional.empty() : Optional.of(new Spread(one * used, degrees, one * least));
    }

    /** Where units treated alike came out exactly the same, what seeds alone would give; 0 for a measure. */
    private double measurable(double dispersion) {
        return dispersion > 0 ? dispersion : least;
    }

    /** The squared lengths, stratum by stratum, of the weights that least squares gives the trays in a contrast. */
    private double[] shares(double[] contrast) {
        double[] solved = products.solve(contrast);
        var weights = new double[matrix.height()];
        for (int i = 0; i < weights.length; i++) {
            weights[i] = Vectors.dot(matrix.row(i), solved);
        }
        var strata = structure.strata();
        var shares = new double[strata.size()];
        for (int s = 0; s < shares.length; s++) {
            shares[s] = strata.share(s, weights);
        }
        return shares;
    }

    @Override
    public double correlation(double[] one, double[] other) {
        return estimates.covariance(one, other) / Math.sqrt(estimates.variance(one) * estimates.variance(other));
    }

    @Override
    public Findings.TermTest test(Term term) {
        var stratum = structure.testedIn(term);
        var change = changes.apply(term);
        if (stratum.isEmpty() || change.isEmpty() || dispersions.get(stratum.get()) == null) {
            return untested(term);
        }
        int rest = structure.decomposition().residualDf(stratum.get());
        double dispersion = measurable(dispersions.get(stratum.get()));
        int df = change.get().df();
        Double value = Numbers.orNull(change.get().value() / dispersion);
        Double held = Numbers.orNull(change.get().value() / Math.max(least, dispersion));
        return new Findings.TermTest(
                term.name(),
                term.factors(),
                structure.strataNames().get(stratum.get()),
                "f",
                value,
                df,
                (double) rest,
                dispersion,
                value == null ? null : Double.valueOf(Tail.f(value, df, rest)),
                null,
                held == null ? null : Double.valueOf(Tail.f(held, df, rest)));
    }

    /** Where it lies, but without a test; in no stratum at all where it can't be estimated. */
    private Findings.TermTest untested(Term term) {
        var part = structure.parts(term).stream().findFirst();
        String stratum = part.map(p -> structure.strataNames().get(p.stratum())).orElse(null);
        int df = part.map(p -> p.df()).orElse(0);
        return new Findings.TermTest(term.name(), term.factors(), stratum, "f", null, df, null, null, null, null, null);
    }
}
