package org.fairtray.statistics.linear;

import java.util.Optional;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * The restricted likelihood of n values at given variances. With b by generalised least squares and r = y - Xb,
 *
 * <pre>  -2 log L = log|V| + log|X'V^-1 X| + r'V^-1 r   (and (n - p) log 2 pi, left out here)</pre>
 *
 * <p>Source: Patterson and Thompson (1971), Biometrika 58, 545-554; Searle, Casella and McCulloch (1992), Variance
 * Components, section 6.6.
 */
final class RestrictedLikelihood {
    final Components components;
    final double[] variances;
    final GroupedCovariance covariance;
    private final Cholesky products;
    private final double[] coefficients;
    private final double[] projected;
    private final double[][] whitened;
    private final double quadratic;

    private RestrictedLikelihood(
            Components components,
            double[] variances,
            GroupedCovariance covariance,
            Cholesky products,
            double[] coefficients,
            double[] projected,
            double[][] whitened,
            double quadratic) {
        this.components = components;
        this.variances = variances;
        this.covariance = covariance;
        this.products = products;
        this.coefficients = coefficients;
        this.projected = projected;
        this.whitened = whitened;
        this.quadratic = quadratic;
    }

    /**
     * Works it out.
     *
     * @param values n numbers
     * @param variances as {@link GroupedCovariance} takes them; not to be changed
     * @return empty where X'V^-1 X can't be factored: the variances lie too far apart for the digits there are
     */
    static Optional<RestrictedLikelihood> of(
            Components components, ModelMatrix model, double[] values, double[] variances) {
        var covariance = new GroupedCovariance(components, variances);
        var solved = new double[model.width()][];
        var products = new double[model.width()][];
        for (int a = 0; a < solved.length; a++) {
            solved[a] = covariance.solve(column(model, a));
            products[a] = model.sum(solved[a]);
        }
        return Cholesky.of(products).map(factor -> {
            double[] coefficients = factor.solve(model.sum(covariance.solve(values)));
            double[] rest = residuals(model, coefficients, values);
            double[] projected = covariance.solve(rest);
            double quadratic = Vectors.dot(rest, projected);
            return new RestrictedLikelihood(
                    components,
                    variances,
                    covariance,
                    factor,
                    coefficients,
                    projected,
                    whiten(factor, solved, values.length),
                    quadratic);
        });
    }

    private static double[] column(ModelMatrix model, int a) {
        var column = new double[model.height()];
        for (int i = 0; i < column.length; i++) {
            column[i] = model.row(i)[a];
        }
        return column;
    }

    static double[] residuals(ModelMatrix model, double[] coefficients, double[] values) {
        var rest = values.clone();
        for (int i = 0; i < rest.length; i++) {
            rest[i] -= Vectors.dot(model.row(i), coefficients);
        }
        return rest;
    }

    /** The columns V^-1 X T with T T' = (X'V^-1 X)^-1. */
    private static double[][] whiten(Cholesky factor, double[][] solved, int n) {
        var whitened = new double[solved.length][n];
        var row = new double[solved.length];
        for (int i = 0; i < n; i++) {
            for (int a = 0; a < row.length; a++) {
                row[a] = solved[a][i];
            }
            double[] white = factor.forward(row);
            for (int a = 0; a < row.length; a++) {
                whitened[a][i] = white[a];
            }
        }
        return whitened;
    }

    double minusTwoLog() {
        return covariance.logDeterminant() + products.logDeterminant() + quadratic;
    }

    /** r'V^-1 r: n - p where the variances have the right size. */
    double quadratic() {
        return quadratic;
    }

    double[] coefficients() {
        return coefficients;
    }

    /** The factor of X'V^-1 X, the inverse of the coefficients' covariance. */
    Cholesky products() {
        return products;
    }

    /** The columns V^-1 X T, T being the triangle with T T' = (X'V^-1 X)^-1, p of n numbers. */
    double[][] whitened() {
        return whitened;
    }

    /** V^-1 (y - Xb), n numbers. */
    double[] projected() {
        return projected;
    }
}
