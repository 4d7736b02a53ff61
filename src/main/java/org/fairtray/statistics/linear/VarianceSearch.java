package org.fairtray.statistics.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * Looks for the variances, none below 0, of the largest restricted likelihood: Fisher's scoring, v - E[H]^-1 g. A step
 * that would take a variance below 0 ends where it is 0; a variance at 0 takes part again as soon as the likelihood rises
 * with it. A step that lowers the likelihood is halved. After each, all variances are brought to the size that the data
 * have, r'V^-1 r = n - p.
 *
 * <p>Source: Searle, Casella and McCulloch (1992), Variance Components, section 8.3; the steps along the bounds: Nocedal
 * and Wright (2006), Numerical Optimization, 2nd ed., section 16.5.
 */
final class VarianceSearch {
    private static final int MOST_STEPS = 200;

    /** What a step would still gain in -2 log L: each variance is then within 1e-8 of its standard error. */
    private static final double SETTLED = 1e-16;

    /** Rounding in -2 log L; a step may seem to lose as much. */
    private static final double ROUNDING = 1e-9;

    /** As a share of all variance: a grouping's that is below counts as 0. */
    private static final double NOTHING = 1e-10;

    /** As a share of all variance: a residual's that falls so far won't come to rest, and digits go lost beyond. */
    private static final double GONE = 1e-8;

    private final Components components;
    private final ModelMatrix model;
    private final double[] values;
    private final boolean[] estimable;

    /**
     * @param values residuals of ordinary least squares, so that large values with small differences keep their digits
     * @param estimable which components take part; the residual does
     */
    VarianceSearch(Components components, ModelMatrix model, double[] values, boolean[] estimable) {
        this.components = components;
        this.model = model;
        this.values = values;
        this.estimable = estimable;
    }

    /** Where the search ended. */
    record End(RestrictedLikelihood at, boolean settled) {}

    /** Starts from equal variances; empty where not even these can be worked with. */
    Optional<End> run() {
        var equal = new double[components.count()];
        for (int k = 0; k < equal.length; k++) {
            equal[k] = estimable[k] ? 1 : 0;
        }
        return sized(equal).map(this::from);
    }

    private End from(RestrictedLikelihood start) {
        var at = start;
        for (int step = 0; step < MOST_STEPS; step++) {
            var information = new Information(at);
            double[] gradient = information.gradient();
            var direction = direction(at.variances, gradient, information.expected());
            if (direction.isEmpty() || vanishes(at.variances)) {
                return new End(at, false);
            }
            if (-Vectors.dot(gradient, direction.get()) < SETTLED) {
                return new End(at, true);
            }
            var next = move(at, direction.get());
            if (next.isEmpty()) {
                return new End(at, false);
            }
            at = next.get();
        }
        return new End(at, false);
    }

    private boolean vanishes(double[] variances) {
        return variances[components.residual()]
                < GONE * Arrays.stream(variances).sum();
    }

    /** The scoring step of the variances that are free to move; empty where the curvature is not positive. */
    private Optional<double[]> direction(double[] variances, double[] gradient, double[][] curvature) {
        var free = new ArrayList<>(IntStream.range(0, variances.length)
                .filter(k -> estimable[k] && (variances[k] > 0 || gradient[k] < 0))
                .boxed()
                .toList());
        while (true) {
            var factor = Cholesky.of(part(curvature, free));
            if (factor.isEmpty()) {
                return Optional.empty();
            }
            double[] move = factor.get()
                    .solve(free.stream().mapToDouble(k -> -gradient[k]).toArray());
            var outward = IntStream.range(0, move.length)
                    .filter(j -> variances[free.get(j)] == 0 && move[j] < 0)
                    .mapToObj(free::get)
                    .toList();
            if (outward.isEmpty()) {
                var whole = new double[variances.length];
                IntStream.range(0, move.length).forEach(j -> whole[free.get(j)] = move[j]);
                return Optional.of(whole);
            }
            free.removeAll(outward);
        }
    }

    private static double[][] part(double[][] matrix, List<Integer> chosen) {
        return chosen.stream()
                .map(a -> chosen.stream().mapToDouble(b -> matrix[a][b]).toArray())
                .toArray(double[][]::new);
    }

    private Optional<RestrictedLikelihood> move(RestrictedLikelihood at, double[] direction) {
        double share = longest(at.variances, direction);
        for (int halving = 0; halving < 40; halving++) {
            var next = sized(moved(at.variances, direction, share));
            if (next.isPresent() && next.get().minusTwoLog() <= at.minusTwoLog() + ROUNDING) {
                return next;
            }
            share /= 2;
        }
        return Optional.empty();
    }

    /** The share of a step, 1 at most, that takes no variance below 0 and leaves a tenth of the residual's. */
    private double longest(double[] variances, double[] direction) {
        double share = 1;
        for (int k = 0; k < variances.length; k++) {
            if (direction[k] < 0) {
                double room = k == components.residual() ? 0.9 : 1;
                share = Math.min(share, -room * variances[k] / direction[k]);
            }
        }
        return share;
    }

    private double[] moved(double[] variances, double[] direction, double share) {
        var moved = variances.clone();
        Vectors.takeAway(moved, -share, direction);
        double least = NOTHING * Arrays.stream(moved).sum();
        for (int k = 0; k < components.residual(); k++) {
            moved[k] = moved[k] < least ? 0 : moved[k];
        }
        return moved;
    }

    /** The likelihood at these variances times what makes r'V^-1 r equal to n - p. */
    private Optional<RestrictedLikelihood> sized(double[] variances) {
        return RestrictedLikelihood.of(components, model, values, variances).flatMap(at -> {
            double size = at.quadratic() / (model.height() - model.width());
            return RestrictedLikelihood.of(
                    components,
                    model,
                    values,
                    Arrays.stream(variances).map(v -> v * size).toArray());
        });
    }
}
