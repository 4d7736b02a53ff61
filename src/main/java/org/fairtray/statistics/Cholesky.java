package org.fairtray.statistics;

import java.util.Optional;

/**
 * The Cholesky factor L of a small symmetric positive definite matrix A = LL', for solving and inverting.
 *
 * <p>Source: Golub and Van Loan (2013), Matrix Computations, 4th ed., section 4.2.
 */
public final class Cholesky {
    private final double[][] lower;

    private Cholesky(double[][] lower) {
        this.lower = lower;
    }

    /**
     * Factors a k x k matrix, of which only the lower triangle is read.
     *
     * @return empty where the matrix is not positive definite to working precision
     */
    public static Optional<Cholesky> of(double[][] matrix) {
        int k = matrix.length;
        var lower = new double[k][k];
        for (int i = 0; i < k; i++) {
            for (int j = 0; j <= i; j++) {
                double rest = matrix[i][j];
                for (int l = 0; l < j; l++) {
                    rest -= lower[i][l] * lower[j][l];
                }
                if (i == j && !(rest > 1e-14 * Math.abs(matrix[i][i]))) {
                    return Optional.empty();
                }
                lower[i][j] = i == j ? Math.sqrt(rest) : rest / lower[j][j];
            }
        }
        return Optional.of(new Cholesky(lower));
    }

    /** The x for which Ax = b; b of k numbers, not changed. */
    public double[] solve(double[] b) {
        int k = lower.length;
        var x = forward(b);
        for (int i = k - 1; i >= 0; i--) {
            for (int j = i + 1; j < k; j++) {
                x[i] -= lower[j][i] * x[j];
            }
            x[i] /= lower[i][i];
        }
        return x;
    }

    /** The x for which Lx = b, so that x'x = b'A^-1 b; b of k numbers, not changed. */
    public double[] forward(double[] b) {
        var x = b.clone();
        for (int i = 0; i < lower.length; i++) {
            for (int j = 0; j < i; j++) {
                x[i] -= lower[i][j] * x[j];
            }
            x[i] /= lower[i][i];
        }
        return x;
    }

    /** The natural logarithm of the determinant of A. */
    public double logDeterminant() {
        double sum = 0;
        for (int i = 0; i < lower.length; i++) {
            sum += 2 * Math.log(lower[i][i]);
        }
        return sum;
    }

    /** The inverse of A, k x k. */
    public double[][] inverse() {
        int k = lower.length;
        var inverse = new double[k][];
        for (int i = 0; i < k; i++) {
            var unit = new double[k];
            unit[i] = 1;
            inverse[i] = solve(unit);
        }
        return inverse;
    }
}
