package org.fairtray.statistics.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * A linear model of n values that share groups, such as trays in stacks on shelves,
 *
 * <pre>  y = Xb + sum over groupings of Z_k u_k + e,   var(u_k) = v_k I,   var(e_i) = v_0 / w_i,</pre>
 *
 * with the variances found by restricted maximum likelihood (REML), none below 0, and b by generalised least squares with
 * these. With no grouping it is (weighted) least squares.
 *
 * <p>Source: Patterson and Thompson (1971), Biometrika 58, 545-554; Searle, Casella and McCulloch (1992), Variance
 * Components, chapter 6. Immutable.
 */
public final class VarianceComponentsFit {
    /** A residual below this share of the squared values is rounding. */
    private static final double NO_RESIDUAL = 1e-29;

    private final Estimates estimates;
    private final double[] variances;
    private final boolean[] estimable;
    private final Optional<RestrictedLikelihood> end;
    private final double[] coefficients;

    private VarianceComponentsFit(
            Estimates estimates,
            double[] coefficients,
            double[] variances,
            boolean[] estimable,
            Optional<RestrictedLikelihood> settledEnd) {
        this.estimates = estimates;
        this.coefficients = coefficients;
        this.variances = variances;
        this.estimable = estimable;
        this.end = settledEnd;
    }

    /** Fits n values, the residual variance of each being the same. */
    public static VarianceComponentsFit of(ModelMatrix model, double[] values, List<Grouping> groupings) {
        var ones = new double[values.length];
        Arrays.fill(ones, 1);
        return of(model, values, groupings, ones);
    }

    /**
     * Fits n values.
     *
     * @param model n rows with independent columns
     * @param values n numbers; not changed
     * @param groupings any number, of n things each, nested or crossed
     * @param weights n numbers above 0: the residual variance of value i is v_0 / weights[i]
     * @throws IllegalArgumentException if sizes differ or a weight is not above 0
     */
    public static VarianceComponentsFit of(
            ModelMatrix model, double[] values, List<Grouping> groupings, double[] weights) {
        check(model, values, groupings, weights);
        var components = new Components(List.copyOf(groupings), weights.clone());
        var alone = new double[components.count()];
        alone[components.residual()] = 1;
        var ordinary = RestrictedLikelihood.of(components, model, values, alone)
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"));
        double[] base = ordinary.coefficients();
        double[] rest = RestrictedLikelihood.residuals(model, base, values);
        double sum = IntStream.range(0, values.length)
                .mapToDouble(i -> weights[i] * values[i] * values[i])
                .sum();
        if (model.height() == model.width() || ordinary.quadratic() <= NO_RESIDUAL * sum) {
            return nothingLeft(components, base);
        }
        boolean[] estimable = Estimable.among(ordinary);
        return new VarianceSearch(components, model, rest, estimable)
                .run()
                .map(found -> found(found, base, estimable))
                .orElseGet(() -> nothingLeft(components, base));
    }

    private static void check(ModelMatrix model, double[] values, List<Grouping> groupings, double[] weights) {
        int n = model.height();
        var sizes = groupings.stream().map(Grouping::size).toList();
        if (values.length != n || weights.length != n || sizes.stream().anyMatch(size -> size != n)) {
            throw new IllegalArgumentException(values.length + " values, " + weights.length + " weights, groupings of "
                    + sizes + " for " + n + " rows");
        }
        if (!Arrays.stream(weights).allMatch(w -> w > 0 && w < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "weights " + Arrays.toString(weights) + ": expected finite numbers above 0");
        }
    }

    /** The model fits without error: every variance is 0, and none is known well enough to test with. */
    private static VarianceComponentsFit nothingLeft(Components components, double[] base) {
        return new VarianceComponentsFit(
                new Estimates(base, new double[base.length][base.length]),
                base,
                new double[components.count()],
                new boolean[components.count()],
                Optional.empty());
    }

    private static VarianceComponentsFit found(VarianceSearch.End found, double[] base, boolean[] estimable) {
        var at = found.at();
        var coefficients = base.clone();
        Vectors.takeAway(coefficients, -1, at.coefficients());
        return new VarianceComponentsFit(
                new Estimates(coefficients, at.products().inverse()),
                coefficients,
                at.variances,
                estimable,
                found.settled() ? Optional.of(at) : Optional.empty());
    }

    /** Whether the search came to rest with some residual variance; if not, nothing should be tested with this fit. */
    public boolean settled() {
        return end.isPresent();
    }

    /** The variances in the order of the groupings, the residual's (for a weight of 1) last; each 0 or more. */
    public double[] variances() {
        return variances.clone();
    }

    /** Numbers of the groupings whose variance would be below 0 if it could: the model is the one without them. */
    public List<Integer> atZero() {
        return groupings(k -> estimable[k] && variances[k] == 0);
    }

    /**
     * Numbers of the groupings whose variance the layout can't tell from the residual's, the model's columns or the
     * groupings before. They are left out; their variances read 0.
     */
    public List<Integer> inestimable() {
        return groupings(k -> !estimable[k]);
    }

    private List<Integer> groupings(java.util.function.IntPredicate chosen) {
        var numbers = new ArrayList<Integer>();
        IntStream.range(0, variances.length - 1).filter(chosen).forEach(numbers::add);
        return List.copyOf(numbers);
    }

    /** The coefficients with their covariance Phi = (X'V^-1 X)^-1, which takes the variances as known. */
    public Estimates estimates() {
        return estimates;
    }

    /** log L with the constant -(n - p)/2 log 2 pi, without log|X'X|; empty where the fit isn't settled. */
    public OptionalDouble restrictedLogLikelihood() {
        return end.stream()
                .mapToDouble(at -> {
                    int free = at.projected().length - coefficients.length;
                    return -(at.minusTwoLog() + free * Math.log(2 * Math.PI)) / 2;
                })
                .findFirst();
    }

    /** Tests and intervals that allow for the variances being estimates; empty where the fit isn't settled. */
    public Optional<KenwardRoger> kenwardRoger() {
        return kenwardRoger(estimable);
    }

    /** Those of the model without the groupings whose variance came out as 0. */
    public Optional<KenwardRoger> kenwardRogerWithoutZeros() {
        var positive = estimable.clone();
        atZero().forEach(k -> positive[k] = false);
        return kenwardRoger(positive);
    }

    private Optional<KenwardRoger> kenwardRoger(boolean[] estimated) {
        return end.flatMap(at -> KenwardRoger.of(at, coefficients, estimated));
    }
}
