package org.fairtray.statistics;

import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.special.Gamma;

/**
 * The power of an F test: the chance that F exceeds its critical value where the numerator is non-central.
 *
 * <p>F' exceeds f with probability Σ_j Poisson(j; λ/2) P(B ≤ b), B of the beta distribution with parameters
 * denominator / 2 and numerator / 2 + j, b = denominator / (denominator + numerator f); the sum goes outward from the
 * largest weight until nothing is added.
 *
 * <p>Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 26.6.18 to 26.6.20 (from memory).
 */
public final class FPower {
    /** A weight this small adds nothing to a probability. */
    private static final double NOTHING = 1e-17;

    private FPower() {}

    /**
     * The power.
     *
     * @param numerator degrees of freedom, above 0
     * @param denominator degrees of freedom, above 0
     * @param nonCentrality λ, the sum of squared true deviations over the error variance, 0 or more
     * @param alpha the test's error rate, in (0, 1)
     * @throws IllegalArgumentException if any is out of range
     */
    public static double of(double numerator, double denominator, double nonCentrality, double alpha) {
        if (!(numerator > 0 && denominator > 0 && nonCentrality >= 0 && alpha > 0 && alpha < 1)) {
            throw new IllegalArgumentException("power of F with " + numerator + " and " + denominator + ", "
                    + nonCentrality + ", alpha " + alpha + ": out of range");
        }
        if (Double.isInfinite(nonCentrality)) {
            return 1;
        }
        double b = critical(numerator, denominator, alpha);
        double half = nonCentrality / 2;
        long middle = (long) Math.floor(half);
        double sum = 0;
        for (long j = middle; j >= 0 && weight(j, half) > NOTHING; j--) {
            sum += weight(j, half) * below(b, numerator / 2 + j, denominator / 2);
        }
        for (long j = middle + 1; weight(j, half) > NOTHING; j++) {
            sum += weight(j, half) * below(b, numerator / 2 + j, denominator / 2);
        }
        return Math.min(1, sum);
    }

    private static double weight(long j, double mean) {
        if (mean == 0) {
            return j == 0 ? 1 : 0;
        }
        return Math.exp(j * Math.log(mean) - mean - Gamma.logGamma(j + 1.0));
    }

    private static double below(double b, double numerator, double denominator) {
        return Beta.regularizedBeta(b, denominator, numerator);
    }

    /** The b of the critical F, by halving: the tail grows with b. */
    private static double critical(double numerator, double denominator, double alpha) {
        double low = 0;
        double high = 1;
        for (int i = 0; i < 100; i++) {
            double middle = (low + high) / 2;
            if (below(middle, numerator / 2, denominator / 2) < alpha) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }
}
