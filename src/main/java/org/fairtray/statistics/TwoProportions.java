package org.fairtray.statistics;

import org.apache.commons.math3.special.Erf;

/**
 * Two proportions held against each other by the normal approximation, two-sided, in two groups of equal size: the power,
 * and the size of a group that gives a power,
 *
 * <pre>  n = [z_(1−α/2) √(2 p̄ (1 − p̄)) + z_power √(p₁(1 − p₁) + p₂(1 − p₂))]² / (p₁ − p₂)²</pre>
 *
 * with p̄ midway. A difference the wrong way round is not counted as found.
 *
 * <p>Source: Fleiss (1981), Statistical Methods for Rates and Proportions, 2nd ed., sections 3.2 and 3.3 (from memory).
 *
 * @param one a proportion, in (0, 1)
 * @param other another, in (0, 1)
 * @param alpha the test's error rate, in (0, 1)
 */
public record TwoProportions(double one, double other, double alpha) {

    /** @throws IllegalArgumentException if any is out of range, or the proportions are the same */
    public TwoProportions {
        if (!(one > 0 && one < 1 && other > 0 && other < 1 && alpha > 0 && alpha < 1) || one == other) {
            throw new IllegalArgumentException("proportions " + one + " and " + other + ", alpha " + alpha
                    + ": expected two that differ, and all between 0 and 1");
        }
    }

    /**
     * The chance that the difference is found.
     *
     * @param size of each group, above 0; need not be whole
     */
    public double power(double size) {
        double far = Math.sqrt(size) * difference() - Tail.normalQuantile(1 - alpha / 2) * spreadIfEqual();
        return Erf.erfc(-far / spread() / Math.sqrt(2)) / 2;
    }

    /**
     * The size of each group that finds the difference.
     *
     * @param power in (0, 1)
     */
    public double size(double power) {
        double root = Tail.normalQuantile(1 - alpha / 2) * spreadIfEqual() + Tail.normalQuantile(power) * spread();
        return root <= 0 ? 0 : root * root / (difference() * difference());
    }

    /** The same with the correction for continuity, n/4 (1 + √(1 + 4 / (n |p₁ − p₂|)))²: what a table of sizes shows. */
    public double correctedSize(double power) {
        double size = size(power);
        double root = size == 0 ? 0 : 1 + Math.sqrt(1 + 4 / (size * difference()));
        return size / 4 * root * root;
    }

    private double difference() {
        return Math.abs(one - other);
    }

    private double spreadIfEqual() {
        double middle = (one + other) / 2;
        return Math.sqrt(2 * middle * (1 - middle));
    }

    private double spread() {
        return Math.sqrt(one * (1 - one) + other * (1 - other));
    }
}
