package org.fairtray.statistics;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import org.apache.commons.math3.exception.MaxCountExceededException;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;

/**
 * Eigenvalues of a symmetric matrix, largest first, and the orthonormal directions that belong to them.
 *
 * @param values n eigenvalues
 * @param directions n rows of n numbers, one for each eigenvalue
 */
public record Eigen(double[] values, double[][] directions) {
    private static final int MOST_SWEEPS = 60;

    /**
     * The eigenvalues of a symmetric matrix.
     *
     * @param matrix n x n, symmetric; unchanged
     */
    public static Eigen of(double[][] matrix) {
        try {
            var found = new EigenDecomposition(new Array2DRowRealMatrix(matrix));
            return sorted(found.getRealEigenvalues(), found.getVT().getData());
        } catch (MaxCountExceededException e) {
            // The QL steps of Commons Math may give up where many eigenvalues are equal; rotations always settle.
            return byRotations(matrix);
        }
    }

    /** Jacobi's method with cyclic sweeps (Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 8.5). */
    static Eigen byRotations(double[][] matrix) {
        int n = matrix.length;
        var a = Arrays.stream(matrix).map(double[]::clone).toArray(double[][]::new);
        var rows = new double[n][n];
        IntStream.range(0, n).forEach(i -> rows[i][i] = 1);
        double all = 0;
        for (var row : a) {
            all += Vectors.dot(row, row);
        }
        for (int sweep = 0; sweep < MOST_SWEEPS && offDiagonal(a) > 1e-30 * all; sweep++) {
            for (int p = 0; p < n; p++) {
                for (int q = p + 1; q < n; q++) {
                    rotate(a, rows, p, q);
                }
            }
        }
        return sorted(IntStream.range(0, n).mapToDouble(i -> a[i][i]).toArray(), rows);
    }

    private static double offDiagonal(double[][] a) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < i; j++) {
                sum += 2 * a[i][j] * a[i][j];
            }
        }
        return sum;
    }

    /** Turns the axes p and q so that nothing is left between them. */
    private static void rotate(double[][] a, double[][] rows, int p, int q) {
        if (a[p][q] == 0) {
            return;
        }
        double tau = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        double tangent = Math.copySign(1, tau) / (Math.abs(tau) + Math.hypot(1, tau));
        double cosine = 1 / Math.hypot(1, tangent);
        double sine = tangent * cosine;
        for (var row : a) {
            double before = row[p];
            row[p] = cosine * before - sine * row[q];
            row[q] = sine * before + cosine * row[q];
        }
        turn(a[p], a[q], cosine, sine);
        turn(rows[p], rows[q], cosine, sine);
    }

    private static void turn(double[] p, double[] q, double cosine, double sine) {
        for (int i = 0; i < p.length; i++) {
            double before = p[i];
            p[i] = cosine * before - sine * q[i];
            q[i] = sine * before + cosine * q[i];
        }
    }

    private static Eigen sorted(double[] values, double[][] directions) {
        var order = IntStream.range(0, values.length)
                .boxed()
                .sorted(Comparator.<Integer>comparingDouble(i -> values[i]).reversed())
                .toList();
        return new Eigen(
                order.stream().mapToDouble(i -> values[i]).toArray(),
                order.stream().map(i -> directions[i]).toArray(double[][]::new));
    }
}
