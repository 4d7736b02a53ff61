package org.fairtray.statistics.residuals;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Span;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * What weighted least squares leaves over between the units of one stratum. Values and columns are averaged over each unit
 * by their weights; the units outside enter as fixed. Of these the most numerous grouping is taken away by its means, which
 * is the same as a column for each of its groups and costs next to nothing.
 *
 * <p>For counts y of m about fitted rates p, the values are working values {@code logit p + (y - mp) / w} and the weights
 * {@code w = m p (1 - p)}: the residuals are then Pearson's, and tests of further columns are score tests.
 *
 * <p>Source: Seber and Lee (2003), Linear Regression Analysis, 2nd ed., chapter 3; for counts Pregibon (1981), Annals of
 * Statistics 9, 705-724. Immutable.
 */
public final class StratumResiduals {
    /** A column that loses all but this share of its length to the means lies in them; what is left is rounding. */
    private static final double LIES_IN = 1e-7;

    private final Grouping units;
    private final double[] fineWeights;
    private final double[] weights;
    private final double[] whole;
    private final Grouping absorbed;
    private final Span span;
    private final double[] residuals;
    private final double leastDispersion;

    /** The test of further columns: F with its degrees of freedom and p. */
    public record Added(double f, int df, int denominatorDf, double p) {}

    private StratumResiduals(
            List<double[]> columns,
            double[] values,
            double[] weights,
            Grouping units,
            List<Grouping> outside,
            double leastDispersion) {
        this.units = units;
        this.fineWeights = weights.clone();
        this.weights = units.sums(weights);
        this.leastDispersion = leastDispersion;
        var outer = outside.stream().map(this::ofUnits).toList();
        this.absorbed =
                outer.stream().max(Comparator.comparingInt(Grouping::groups)).orElse(Grouping.whole(units.groups()));
        this.whole = weighted(average(values));
        var all = new ArrayList<>(prepared(columns));
        outer.stream()
                .filter(g -> !absorbed.finerThan(g))
                .flatMap(g -> g.indicators().stream())
                .forEach(c -> centred(weighted(c)).ifPresent(all::add));
        this.span = Span.empty().with(all);
        this.residuals = span.residual(withoutMeans(whole));
    }

    /**
     * Fits n values.
     *
     * @param columns of the model, of n numbers each; redundant ones and the constant do no harm
     * @param values n numbers
     * @param weights n numbers above 0
     * @param units of the stratum
     * @param outside the groupings that this stratum's units lie in
     * @param leastDispersion what a residual mean square can't truly be below: 1 for counts, 0 for measures
     * @throws IllegalArgumentException if lengths differ, a weight is not above 0, or a unit lies in two groups outside
     */
    public static StratumResiduals of(
            List<double[]> columns,
            double[] values,
            double[] weights,
            Grouping units,
            List<Grouping> outside,
            double leastDispersion) {
        int n = values.length;
        if (weights.length != n || units.size() != n || columns.stream().anyMatch(c -> c.length != n)) {
            throw new IllegalArgumentException(
                    n + " values, " + weights.length + " weights, " + units + ": expected as many of each");
        }
        if (!IntStream.range(0, n).allMatch(i -> weights[i] > 0)
                || !outside.stream().allMatch(units::finerThan)) {
            throw new IllegalArgumentException("weights or units outside: expected weights above 0 and nested units");
        }
        return new StratumResiduals(columns, values, weights, units, outside, leastDispersion);
    }

    private Grouping ofUnits(Grouping outside) {
        var of = new Integer[units.groups()];
        int[] unit = units.of();
        int[] outer = outside.of();
        for (int i = 0; i < unit.length; i++) {
            of[unit[i]] = outer[i];
        }
        return Grouping.by(List.of(of));
    }

    private double[] average(double[] values) {
        var times = new double[values.length];
        for (int i = 0; i < times.length; i++) {
            times[i] = values[i] * fineWeights[i];
        }
        var sums = units.sums(times);
        for (int u = 0; u < sums.length; u++) {
            sums[u] /= weights[u];
        }
        return sums;
    }

    private double[] weighted(double[] values) {
        return IntStream.range(0, values.length)
                .mapToDouble(u -> values[u] * Math.sqrt(weights[u]))
                .toArray();
    }

    private double[] withoutMeans(double[] weighted) {
        double[] means = absorbed.sums(weighted(weighted));
        double[] sums = absorbed.sums(weights);
        int[] group = absorbed.of();
        return IntStream.range(0, weighted.length)
                .mapToDouble(u -> weighted[u] - Math.sqrt(weights[u]) * means[group[u]] / sums[group[u]])
                .toArray();
    }

    private Optional<double[]> centred(double[] weighted) {
        var rest = withoutMeans(weighted);
        return Vectors.squaredLength(rest) <= LIES_IN * LIES_IN * Vectors.squaredLength(weighted)
                ? Optional.empty()
                : Optional.of(rest);
    }

    private List<double[]> prepared(List<double[]> columns) {
        return columns.stream()
                .map(c -> centred(weighted(average(c))))
                .flatMap(Optional::stream)
                .toList();
    }

    /** Units less what the model and the units outside take up; 0 or more. */
    public int df() {
        return weights.length - absorbed.groups() - span.dimension();
    }

    /** What is left over of each unit, times the root of its weight. */
    public double[] residuals() {
        return residuals.clone();
    }

    /** The value fitted to a unit. */
    public double fitted(int unit) {
        return (whole[unit] - residuals[unit]) / Math.sqrt(weights[unit]);
    }

    /** The groups of units whose means were taken away. */
    public Grouping absorbed() {
        return absorbed;
    }

    /** The sum of squares of the residuals; 0 where they are nothing but rounding of the values. */
    public double sumOfSquares() {
        double sum = Vectors.squaredLength(residuals);
        return df() == 0 || sum <= 1e-26 * Vectors.squaredLength(whole) ? 0 : sum;
    }

    /** How much of each unit's value goes into its own fitted value, 0 to 1. */
    public double[] leverages() {
        double[] sums = absorbed.sums(weights);
        int[] group = absorbed.of();
        var leverages = IntStream.range(0, weights.length)
                .mapToDouble(u -> weights[u] / sums[group[u]])
                .toArray();
        for (var direction : span.basisFrom(0)) {
            for (int u = 0; u < leverages.length; u++) {
                leverages[u] += direction[u] * direction[u];
            }
        }
        return leverages;
    }

    /** The dispersion that a sum of squares shows, never below the least one. */
    double dispersion(double sumOfSquares, int df) {
        return Math.max(leastDispersion, sumOfSquares / df);
    }

    /** How many degrees of freedom some columns of n numbers add to the model. */
    public int adds(List<double[]> columns) {
        return span.with(prepared(columns)).dimension() - span.dimension();
    }

    /**
     * Tests whether further columns explain what is left over. The residual mean square counts as the least dispersion
     * where it is below.
     *
     * @param columns of n numbers each
     * @return empty where they add nothing to the model, or nothing is left to test them against
     */
    public Optional<Added> added(List<double[]> columns) {
        var larger = span.with(prepared(columns));
        int df = larger.dimension() - span.dimension();
        int rest = df() - df;
        if (df == 0 || rest <= 0) {
            return Optional.empty();
        }
        double explained = larger.squaredLengthAlong(residuals, span.dimension());
        double dispersion = dispersion(Math.max(0, sumOfSquares() - explained), rest);
        if (sumOfSquares() == 0 || !(dispersion > 1e-12 * sumOfSquares())) {
            return Optional.empty();
        }
        double f = explained / df / dispersion;
        return Optional.of(new Added(f, df, rest, Tail.f(f, df, rest)));
    }
}
