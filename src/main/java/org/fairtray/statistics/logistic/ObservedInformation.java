package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;

/**
 * The negative second derivatives of a mixed logistic likelihood by all coefficients and those standard deviations that
 * are not 0: central differences of its slopes, by a small part of the standard errors.
 */
final class ObservedInformation {
    /** How far a coefficient is moved, in standard errors as if weights stayed; a standard deviation, as it is. */
    private static final double PART = 1e-3;

    /** How far a parameter is moved at most, as a share of its size. */
    private static final double MOST = 1e-2;

    private static final double ARRIVED = 1e-5;

    private final double[][] covariance;
    private final boolean atTop;

    private ObservedInformation(double[][] covariance, boolean atTop) {
        this.covariance = covariance;
        this.atTop = atTop;
    }

    /**
     * Looks around a top.
     *
     * @return empty where it isn't a top: where the information isn't positive definite
     */
    static Optional<ObservedInformation> of(LaplaceLikelihood likelihood, double[] at) {
        int first = likelihood.firstDeviation();
        int[] free = IntStream.range(0, at.length)
                .filter(k -> k < first || at[k] != 0)
                .toArray();
        var gradient = new double[at.length];
        likelihood.value(at, gradient);
        double[][] information = Cholesky.of(likelihood.informationAboutCoefficients())
                .map(guess -> differences(likelihood, at, free, guess.inverse()))
                .orElse(new double[1][1]);
        double[] slopes = Arrays.stream(free).mapToDouble(k -> gradient[k]).toArray();
        return Cholesky.of(information)
                .map(f -> new ObservedInformation(f.inverse(), isShort(f.solve(slopes), at, free)));
    }

    private static boolean isShort(double[] step, double[] at, int[] free) {
        return IntStream.range(0, step.length)
                .allMatch(k -> Math.abs(step[k]) <= ARRIVED * (1 + Math.abs(at[free[k]])));
    }

    private static double[][] differences(LaplaceLikelihood likelihood, double[] at, int[] free, double[][] guess) {
        var information = new double[free.length][free.length];
        var above = new double[at.length];
        var below = new double[at.length];
        for (int a = 0; a < free.length; a++) {
            int k = free[a];
            double nudge = k < guess.length
                    ? Math.min(PART * Math.sqrt(guess[k][k]), MOST * (1 + Math.abs(at[k])))
                    : Math.min(PART, MOST * Math.abs(at[k]));
            double[] to = at.clone();
            to[k] = at[k] + nudge;
            likelihood.value(to, above);
            to[k] = at[k] - nudge;
            likelihood.value(to, below);
            for (int b = 0; b < free.length; b++) {
                double half = (below[free[b]] - above[free[b]]) / (4 * nudge);
                information[a][b] += half;
                information[b][a] += half;
            }
        }
        return information;
    }

    /** The inverse of the information: first the coefficients, then the standard deviations that are not 0. */
    double[][] covariance() {
        return covariance;
    }

    /** Whether Newton's step from here is short: no parameter is farther from the top than a small part of 1 + itself. */
    boolean atTop() {
        return atTop;
    }
}
