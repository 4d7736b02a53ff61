package org.fairtray.statistics.pooling;

/**
 * What one trial says of the thing that several trials estimate.
 *
 * @param estimate its estimate, a finite number
 * @param variance the square of its standard error, taken as known; finite and above 0
 */
public record Study(double estimate, double variance) {

    /** @throws IllegalArgumentException if a number is not finite or the variance not above 0 */
    public Study {
        if (!Double.isFinite(estimate) || !(variance > 0 && variance < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("estimate " + estimate + " with variance " + variance
                    + ": expected finite numbers and a variance above 0");
        }
    }

    /** The standard error of the estimate. */
    public double standardError() {
        return Math.sqrt(variance);
    }
}
