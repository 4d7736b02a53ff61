package org.fairtray.statistics.linear;

import java.util.Arrays;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * Ordinary least squares by the normal equations, with one step of refinement on the residuals, so that large values with
 * small differences keep their digits.
 *
 * <p>Source: Seber and Lee (2003), Linear Regression Analysis, 2nd ed., chapter 3.
 *
 * @param estimates coefficients; their covariance is for a residual variance of 1
 * @param residualSumOfSquares 0 or more
 * @param residualDf rows less columns
 */
public record LinearFit(Estimates estimates, double residualSumOfSquares, int residualDf) {

    /**
     * Fits n values.
     *
     * @param model n rows with independent columns
     * @param values n numbers; not changed
     * @throws IllegalArgumentException if the lengths differ
     */
    public static LinearFit of(ModelMatrix model, double[] values) {
        if (values.length != model.height()) {
            throw new IllegalArgumentException(values.length + " values for " + model.height() + " rows");
        }
        var ones = new double[values.length];
        Arrays.fill(ones, 1);
        var factor = Cholesky.of(model.products(ones))
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"));
        double[] coefficients = factor.solve(model.sum(values));
        double[] correction = factor.solve(model.sum(residuals(model, coefficients, values)));
        Vectors.takeAway(coefficients, -1, correction);
        double rest = Vectors.squaredLength(residuals(model, coefficients, values));
        return new LinearFit(new Estimates(coefficients, factor.inverse()), rest, model.height() - model.width());
    }

    /** The fitted value of row i. */
    public double fitted(ModelMatrix model, int i) {
        return estimates.combination(model.row(i));
    }

    private static double[] residuals(ModelMatrix model, double[] coefficients, double[] values) {
        var rest = values.clone();
        for (int i = 0; i < rest.length; i++) {
            rest[i] -= Vectors.dot(model.row(i), coefficients);
        }
        return rest;
    }
}
