package org.fairtray.statistics;

/**
 * Coefficients of a fitted model with their covariance at dispersion 1. Immutable.
 */
public final class Estimates {
    private final double[] coefficients;
    private final double[][] covariance;

    public Estimates(double[] coefficients, double[][] covariance) {
        this.coefficients = coefficients;
        this.covariance = covariance;
    }

    /** How many coefficients there are. */
    public int size() {
        return coefficients.length;
    }

    /** Coefficient j. */
    public double coefficient(int j) {
        return coefficients[j];
    }

    /** All coefficients, in order. */
    public double[] coefficients() {
        return coefficients.clone();
    }

    /** The standard error of coefficient j at dispersion 1. */
    public double standardError(int j) {
        return Math.sqrt(covariance[j][j]);
    }

    /** The covariance of coefficients j and k at dispersion 1. */
    public double covariance(int j, int k) {
        return covariance[j][k];
    }

    /** The combination w'b of the coefficients. */
    public double combination(double[] weights) {
        return Vectors.dot(weights, coefficients);
    }

    /** The variance of w'b at dispersion 1. */
    public double variance(double[] weights) {
        return Math.max(0, covariance(weights, weights));
    }

    /** The covariance of v'b and w'b at dispersion 1. */
    public double covariance(double[] one, double[] other) {
        double sum = 0;
        for (int a = 0; a < one.length; a++) {
            sum += one[a] * Vectors.dot(covariance[a], other);
        }
        return sum;
    }
}
