package org.fairtray.statistics.comparisons;

import org.apache.commons.math3.distribution.TDistribution;

/** Stand-in while the real one is written. */
public final class SimultaneousT {
    private final int k;
    private final double df;

    private SimultaneousT(int k, double df) {
        this.k = k;
        this.df = df;
    }
    /** x */
    public static SimultaneousT of(double[][] correlation, double df) {
        return new SimultaneousT(correlation.length, df);
    }
    /** x */
    public double p(double t) {
        return Math.min(1, k * 2 * new TDistribution(null, df).cumulativeProbability(-Math.abs(t)));
    }
    /** x */
    public double quantile(double confidence) {
        return new TDistribution(null, df).inverseCumulativeProbability(1 - (1 - confidence) / k / 2);
    }
}
