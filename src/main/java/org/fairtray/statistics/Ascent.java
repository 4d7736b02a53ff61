package org.fairtray.statistics;

import java.util.Optional;
import java.util.function.Function;

/**
 * The way up to a maximum by Newton's steps or scoring, damped where the surface is not curved downwards or a full step
 * would lead down.
 *
 * <pre>  x += (C + c diag|C|)^-1 g,  c the first of 0, 1e-4, 1e-3 ... that does not lower the value</pre>
 *
 * with g the slope and C the curvature: minus the second derivatives, or a positive definite matrix in their place. It has
 * come to rest where g'C^-1 g, twice the height that a full step promises, is nothing but rounding.
 *
 * <p>Source: Nocedal and Wright (2006), Numerical Optimization, 2nd ed., sections 3.4 and 10.3 (Levenberg and Marquardt).
 *
 * @param place where it ended, k numbers
 * @param point the surface there
 * @param steps how many steps were taken
 * @param settled whether it came to rest; not so on a ridge, or where the surface rises for ever
 */
public record Ascent(double[] place, Point point, int steps, boolean settled) {
    private static final int MOST_STEPS = 200;
    private static final double REST = 1e-20;

    /** Below this a promise that no longer shrinks is rounding, too. */
    private static final double NEARLY_REST = 1e-14;

    private static final double ROUNDING = 1e-13;
    private static final double FIRST_DAMPING = 1e-4;
    private static final double MOST_DAMPING = 1e8;

    /**
     * A surface at one place.
     *
     * @param value its height; not finite where there is no surface
     * @param slope k first derivatives
     * @param curvature k x k, symmetric, minus the second derivatives or their expectation
     */
    public record Point(double value, double[] slope, double[][] curvature) {
        /** The inverse of the curvature; empty where it is not positive definite. */
        public Optional<double[][]> inverse() {
            return Cholesky.of(curvature).map(Cholesky::inverse);
        }

        private double promise() {
            return Cholesky.of(curvature)
                    .map(factor -> Vectors.dot(factor.solve(slope), slope))
                    .orElse(Double.POSITIVE_INFINITY);
        }
    }

    /**
     * Climbs as far as it can.
     *
     * @param start k numbers, not changed, where the surface is finite
     * @param surface gives the surface at k numbers
     * @throws IllegalArgumentException if there is no surface at the start
     */
    public static Ascent from(double[] start, Function<double[], Point> surface) {
        var here = new Ascent(start.clone(), surface.apply(start), 0, false);
        if (!Double.isFinite(here.point.value)) {
            throw new IllegalArgumentException("height " + here.point.value + " at the start: expected a finite one");
        }
        double before = Double.POSITIVE_INFINITY;
        while (here.steps < MOST_STEPS) {
            double promise = here.point.promise();
            if (promise <= REST || (promise <= NEARLY_REST && promise >= before)) {
                return new Ascent(here.place, here.point, here.steps, true);
            }
            before = promise;
            var next = here.next(surface);
            if (next.isEmpty()) {
                return here;
            }
            here = next.get();
        }
        return here;
    }

    private Optional<Ascent> next(Function<double[], Point> surface) {
        for (double damping = 0; damping <= MOST_DAMPING; damping = Math.max(FIRST_DAMPING, 10 * damping)) {
            var factor = Cholesky.of(damped(point.curvature, damping));
            if (factor.isPresent()) {
                var there = place.clone();
                Vectors.takeAway(there, -1, factor.get().solve(point.slope));
                var found = surface.apply(there);
                if (found.value >= point.value - ROUNDING * (1 + Math.abs(point.value))
                        && found.value < Double.POSITIVE_INFINITY) {
                    return Optional.of(new Ascent(there, found, steps + 1, false));
                }
            }
        }
        return Optional.empty();
    }

    private static double[][] damped(double[][] curvature, double damping) {
        var damped = new double[curvature.length][];
        for (int j = 0; j < damped.length; j++) {
            damped[j] = curvature[j].clone();
            damped[j][j] += damping * Math.abs(damped[j][j]);
        }
        return damped;
    }
}
