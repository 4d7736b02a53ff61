package org.fairtray.statistics;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.SplittableRandom;
import org.apache.commons.math3.exception.MaxCountExceededException;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.junit.jupiter.api.Test;

/** Eigenvalues, held against closed forms. */
class EigenTest {
    /** The matrix with 2 on the diagonal and -1 beside it: 2 - 2 cos(k pi / (n + 1)) (Strang, Linear Algebra, from memory). */
    private static double[][] chain(int n) {
        var matrix = new double[n][n];
        for (int i = 0; i < n; i++) {
            matrix[i][i] = 2;
            if (i > 0) {
                matrix[i][i - 1] = -1;
                matrix[i - 1][i] = -1;
            }
        }
        return matrix;
    }

    private static double[] closedForm(int n) {
        var values = new double[n];
        for (int k = 1; k <= n; k++) {
            values[n - k] = 2 - 2 * Math.cos(k * Math.PI / (n + 1));
        }
        return values;
    }

    /** Directions that are orthonormal and put the matrix together again. */
    private static void assertFits(double[][] matrix, Eigen eigen) {
        int n = matrix.length;
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double sum = 0;
                for (int k = 0; k < n; k++) {
                    sum += eigen.values()[k] * eigen.directions()[k][i] * eigen.directions()[k][j];
                }
                assertEquals(matrix[i][j], sum, 1e-9 * Math.max(1, eigen.values()[0]));
                double product = Vectors.dot(eigen.directions()[i], eigen.directions()[j]);
                assertEquals(i == j ? 1 : 0, product, 1e-10);
            }
        }
    }

    @Test
    void bothWaysGiveTheClosedForm() {
        for (int n : new int[] {1, 2, 7, 40}) {
            assertArrayEquals(closedForm(n), Eigen.of(chain(n)).values(), 1e-12);
            assertArrayEquals(closedForm(n), Eigen.byRotations(chain(n)).values(), 1e-12);
            assertFits(chain(n), Eigen.of(chain(n)));
            assertFits(chain(n), Eigen.byRotations(chain(n)));
        }
    }

    /** How often 200 levels, drawn into five blocks of ten, lie in the same block: most eigenvalues are 0. */
    private static double[][] seldomTogether() {
        var random = new SplittableRandom(0);
        var times = new double[200][5];
        for (int block = 0; block < 5; block++) {
            for (int place = 0; place < 10; place++) {
                times[random.nextInt(200)][block]++;
            }
        }
        var together = new double[200][200];
        for (int i = 0; i < 200; i++) {
            for (int j = 0; j < 200; j++) {
                together[i][j] = Vectors.dot(times[i], times[j]) / 10;
            }
        }
        return together;
    }

    @Test
    void manyEqualEigenvaluesAreFoundWhereTheQuickWayGivesUp() {
        var matrix = seldomTogether();
        assertThrows(MaxCountExceededException.class, () -> new EigenDecomposition(new Array2DRowRealMatrix(matrix)));
        assertFits(matrix, Eigen.of(matrix));
    }
}
