package org.fairtray.statistics.logistic;

import java.util.function.Predicate;
import org.fairtray.statistics.Vectors;

/**
 * Climbs a log-likelihood by the method of Broyden, Fletcher, Goldfarb and Shanno, a step shortened while it gains less
 * than a small part of what it promised.
 *
 * <p>Source: Nocedal and Wright (2006), Numerical Optimization, 2nd ed., sections 3.1, 3.5 and 6.1.
 */
final class QuasiNewton {
    private static final int MOST_STEPS = 200;
    private static final int MOST_SHORTENINGS = 30;
    private static final double PART_OF_PROMISE = 1e-4;

    /** Twice the gain a step promises, below which the parameters are right to 3e-8 of their standard errors. */
    private static final double SETTLED = 1e-15;

    /** What rounding leaves uncertain in a log-likelihood, as a share. */
    private static final double ROUNDING = 1e-13;

    private final Likelihood likelihood;
    private final double[][] inverse;
    private double[] at;
    private double[] gradient;
    private double value;

    private QuasiNewton(Likelihood likelihood, double[] start, double[][] inverse) {
        this.likelihood = likelihood;
        this.inverse = inverse;
        this.at = start.clone();
        this.gradient = new double[start.length];
        this.value = likelihood.value(at, gradient);
    }

    /**
     * Where a climb ended.
     *
     * @param at the parameters
     * @param value the log-likelihood
     * @param settled whether nothing more was to be gained
     * @param steps how many were taken
     */
    record Top(double[] at, double value, boolean settled, int steps) {}

    /**
     * Climbs from a start.
     *
     * @param inverse a guess at the inverse of the negative second derivatives, k x k, positive definite but for rows and
     *     columns of 0s, whose parameters stay as they are; written over
     */
    static Top climb(Likelihood likelihood, double[] start, double[][] inverse) {
        return climb(likelihood, start, inverse, at -> false);
    }

    /**
     * The same until a point is reached where it may end.
     *
     * @param mayEnd asked of each point
     */
    static Top climb(Likelihood likelihood, double[] start, double[][] inverse, Predicate<double[]> mayEnd) {
        var climb = new QuasiNewton(likelihood, start, inverse);
        for (int step = 0; step < MOST_STEPS; step++) {
            if (mayEnd.test(climb.at)) {
                return climb.top(false, step);
            }
            double[] direction = climb.direction();
            double promised = Vectors.dot(climb.gradient, direction);
            if (!(promised >= SETTLED)) {
                return climb.top(promised >= 0, step);
            }
            if (!climb.goAlong(direction, promised)) {
                return climb.top(promised < ROUNDING * (1 + Math.abs(climb.value)), step);
            }
        }
        return climb.top(false, MOST_STEPS);
    }

    private Top top(boolean settled, int steps) {
        return new Top(at, value, settled, steps);
    }

    private double[] direction() {
        var direction = new double[at.length];
        for (int a = 0; a < at.length; a++) {
            direction[a] = Vectors.dot(inverse[a], gradient);
        }
        return direction;
    }

    /** Goes on to a better point; false where there is none along the direction. */
    private boolean goAlong(double[] direction, double promised) {
        var slopes = new double[at.length];
        double part = 1;
        for (int count = 0; count < MOST_SHORTENINGS; count++) {
            var to = at.clone();
            Vectors.takeAway(to, -part, direction);
            double reached = likelihood.value(to, slopes);
            if (reached >= value + PART_OF_PROMISE * part * promised - ROUNDING * (1 + Math.abs(value))) {
                learn(Vectors.minus(to, at), Vectors.minus(gradient, slopes));
                at = to;
                gradient = slopes;
                value = reached;
                return true;
            }
            part *= shorter(reached - value, part * promised);
        }
        return false;
    }

    /** Where the parabola through both ends is highest, as a share of the step, kept between a tenth and a half. */
    private static double shorter(double gained, double promised) {
        double best = promised / (2 * (promised - gained));
        return best > 0.1 ? Math.min(0.5, best) : 0.1;
    }

    /** Takes in that going by {@code move} turned the slopes by {@code turned}. Where they grew, longer steps are due. */
    private void learn(double[] move, double[] turned) {
        double curvature = Vectors.dot(move, turned);
        int size = move.length;
        var met = new double[size];
        for (int a = 0; a < size; a++) {
            met[a] = Vectors.dot(inverse[a], turned);
        }
        double own = Vectors.dot(turned, met);
        for (int a = 0; a < size; a++) {
            for (int b = 0; b < size; b++) {
                inverse[a][b] += curvature > 0
                        ? (1 + own / curvature) * move[a] * move[b] / curvature
                                - (met[a] * move[b] + move[a] * met[b]) / curvature
                        : inverse[a][b];
            }
        }
    }
}
