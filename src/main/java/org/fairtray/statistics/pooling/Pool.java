package org.fairtray.statistics.pooling;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * Studies with columns that may explain their estimates, for any variance tau^2 between studies:
 *
 * <pre>  y_i = x_i'b + u_i + e_i,   var(u_i) = tau^2,   var(e_i) = v_i known,
 *   W = diag 1 / (v_i + tau^2),   P = W - W X (X'WX)^-1 X'W,
 *   -2 log L = log|W^-1| + log|X'WX| + y'Py + (k - p) log 2 pi,   d log L / d tau^2 = (y'PPy - tr P) / 2</pre>
 *
 * The estimates are worked with as what an unweighted fit leaves over of them, so that adding the same to all of them costs
 * no digits.
 *
 * <p>Sources: Viechtbauer (2005), Journal of Educational and Behavioral Statistics 30, 261-293; Raudenbush (2009), in Cooper,
 * Hedges and Valentine, The Handbook of Research Synthesis and Meta-Analysis, 2nd ed., chapter 16.
 */
final class Pool {
    private final ModelMatrix model;
    private final double[] variances;
    private final double[] base;
    private final double[] rest;

    /**
     * @param model k rows with independent columns, fewer columns than rows or as many
     * @param studies k of them
     */
    Pool(ModelMatrix model, List<Study> studies) {
        this.model = model;
        this.variances = studies.stream().mapToDouble(Study::variance).toArray();
        double[] estimates = studies.stream().mapToDouble(Study::estimate).toArray();
        var ones = new double[estimates.length];
        Arrays.fill(ones, 1);
        this.base = factor(ones).solve(model.sum(estimates));
        this.rest = residuals(estimates, base);
    }

    /**
     * The model at one variance between studies.
     *
     * @param tauSquared that variance
     * @param coefficients b, by generalised least squares
     * @param covariance (X'WX)^-1
     * @param q y'Py, the weighted squares that are left
     * @param trace tr P
     * @param slope of the restricted log-likelihood
     * @param logLikelihood the restricted one, without log|X'X|
     */
    record At(
            double tauSquared,
            double[] coefficients,
            double[][] covariance,
            double q,
            double trace,
            double slope,
            double logLikelihood) {}

    At at(double tauSquared) {
        var weights = weights(tauSquared);
        var factor = factor(weights);
        var weighted = times(weights, rest);
        double[] more = factor.solve(model.sum(weighted));
        var left = residuals(rest, more);
        var weightedLeft = times(weights, left);
        double[][] covariance = factor.inverse();
        double[][] squares = model.products(times(weights, weights));
        double trace = Arrays.stream(weights).sum() - product(covariance, squares);
        double q = Vectors.dot(weightedLeft, left);
        double determinants =
                factor.logDeterminant() - Arrays.stream(weights).map(Math::log).sum();
        var coefficients = base.clone();
        Vectors.takeAway(coefficients, -1, more);
        return new At(
                tauSquared,
                coefficients,
                covariance,
                q,
                trace,
                (Vectors.squaredLength(weightedLeft) - trace) / 2,
                -(determinants + q + free() * Math.log(2 * Math.PI)) / 2);
    }

    /** 1 / (v_i + tau^2). */
    double[] weights(double tauSquared) {
        return Arrays.stream(variances).map(v -> 1 / (v + tauSquared)).toArray();
    }

    /** Degrees of freedom that are left: k - p. */
    int free() {
        return model.height() - model.width();
    }

    double smallestVariance() {
        return Arrays.stream(variances).min().orElseThrow();
    }

    /**
     * A variance between studies beyond which the likelihood only falls. With m the mean square that an unweighted fit leaves
     * and V the largest v_i, y'PPy is at most (k - p) m / tau^4 and tr P at least (k - p) / (tau^2 + V), so the slope is below 0
     * wherever tau^4 is above m (tau^2 + V), as at m + sqrt(m V).
     */
    double bound() {
        double meanSquare = Vectors.squaredLength(rest) / free();
        return meanSquare
                + Math.sqrt(meanSquare * Arrays.stream(variances).max().orElseThrow());
    }

    private Cholesky factor(double[] weights) {
        return Cholesky.of(model.products(weights))
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"));
    }

    private double[] residuals(double[] values, double[] coefficients) {
        return IntStream.range(0, values.length)
                .mapToDouble(i -> values[i] - Vectors.dot(model.row(i), coefficients))
                .toArray();
    }

    private static double[] times(double[] a, double[] b) {
        return IntStream.range(0, a.length).mapToDouble(i -> a[i] * b[i]).toArray();
    }

    /** The trace of the product of two symmetric matrices. */
    private static double product(double[][] a, double[][] b) {
        return IntStream.range(0, a.length)
                .mapToDouble(i -> Vectors.dot(a[i], b[i]))
                .sum();
    }
}
