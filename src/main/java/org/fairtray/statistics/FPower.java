package org.fairtray.statistics;

import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.special.Gamma;

/**
 * The power of an F test: the chance that F exceeds its critical value where the numerator is non-central.
 *
 * <p>F' exceeds f with probability Σ_j Poisson(j; λ/2) P(B ≤ b), B of the beta distribution with parameters
 * denominator / 2 and numerator / 2 + j, b = denominator / (denominator + numerator f). P(B ≤ b) grows with j by terms that
 * are all positive, so one beta function and a recurrence give the sum.
 *
 * <p>Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 26.5.16 and 26.6.18 to 26.6.20 (from
 * memory).
 */
public final class FPower {
    /** A weight this small adds nothing to a probability. */
    private static final double NOTHING = 1e-17;

    /** So many Poisson standard deviations below its mean lies less than that. */
    private static final double DEVIATES = 9;

    private static final double LARGEST = 1e8;
    private static final int STEPS = 200;

    private final double alpha;
    private final double a;
    private final double c;
    private final double b;

    /**
     * The test.
     *
     * @param numerator degrees of freedom, above 0
     * @param denominator degrees of freedom, above 0
     * @param alpha the test's error rate, in (0, 1)
     * @throws IllegalArgumentException if any is out of range
     */
    public FPower(double numerator, double denominator, double alpha) {
        if (!(numerator > 0 && denominator > 0 && alpha > 0 && alpha < 1)) {
            throw new IllegalArgumentException("power of F with " + numerator + " and " + denominator + ", alpha "
                    + alpha + ": expected degrees of freedom above 0, alpha between 0 and 1");
        }
        this.alpha = alpha;
        this.a = numerator / 2;
        this.c = denominator / 2;
        this.b = critical(a, c, alpha);
    }

    /**
     * The power of a test; its arguments are those of the constructor and of {@link #at}.
     *
     * @throws IllegalArgumentException if any is out of range
     */
    public static double of(double numerator, double denominator, double nonCentrality, double alpha) {
        return new FPower(numerator, denominator, alpha).at(nonCentrality);
    }

    /**
     * The power.
     *
     * @param nonCentrality λ, the sum of squared true deviations over the error variance, 0 or more
     * @throws IllegalArgumentException if it is below 0
     */
    public double at(double nonCentrality) {
        if (!(nonCentrality >= 0)) {
            throw new IllegalArgumentException("non-centrality " + nonCentrality + ": expected 0 or more");
        }
        if (nonCentrality > LARGEST) {
            return 1;
        }
        double mean = nonCentrality / 2;
        long j = (long) Math.max(0, Math.floor(mean - DEVIATES * Math.sqrt(mean) - 1));
        double weight = weight(j, mean);
        double below = Beta.regularizedBeta(b, c, a + j);
        double step = Math.exp(c * Math.log(b)
                + (a + j) * Math.log1p(-b)
                + Gamma.logGamma(a + j + c)
                - Gamma.logGamma(a + j + 1)
                - Gamma.logGamma(c));
        double sum = 0;
        while (j <= mean || weight > NOTHING) {
            sum += weight * below;
            below += step;
            step *= (1 - b) * (a + j + c) / (a + j + 1);
            j++;
            weight *= mean / j;
        }
        return Math.min(1, sum);
    }

    /**
     * The non-centrality with which the test has this power: 0 for one of alpha or less.
     *
     * @param power in (0, 1)
     */
    public double nonCentrality(double power) {
        if (!(power > 0 && power < 1)) {
            throw new IllegalArgumentException("power " + power + ": expected between 0 and 1");
        }
        if (power <= alpha) {
            return 0;
        }
        double high = 1;
        while (high < LARGEST && at(high) < power) {
            high *= 2;
        }
        return at(high) < power ? high : new BrentSolver(1e-12, 1e-10).solve(STEPS, l -> at(l) - power, 0, high);
    }

    private static double weight(long j, double mean) {
        if (mean == 0) {
            return j == 0 ? 1 : 0;
        }
        return Math.exp(j * Math.log(mean) - mean - Gamma.logGamma(j + 1.0));
    }

    /** The b of the critical F, by halving: the tail grows with b. */
    private static double critical(double a, double c, double alpha) {
        double low = 0;
        double high = 1;
        while (low < (low + high) / 2 && (low + high) / 2 < high && high - low > 1e-16 * high) {
            double middle = (low + high) / 2;
            if (Beta.regularizedBeta(middle, c, a) < alpha) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }
}
