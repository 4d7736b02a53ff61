package org.fairtray.statistics;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SparseCholeskyTest {

    /** A random matrix with a share of its entries not 0, and a diagonal that outweighs them. */
    private static double[][] positive(int size, double share, long seed) {
        var random = new Random(seed);
        var matrix = new double[size][size];
        for (int i = 0; i < size; i++) {
            matrix[i][i] += 1 + random.nextDouble();
            for (int j = 0; j < i; j++) {
                if (random.nextDouble() < share) {
                    matrix[i][j] = matrix[j][i] = random.nextGaussian();
                    matrix[i][i] += Math.abs(matrix[i][j]);
                    matrix[j][j] += Math.abs(matrix[i][j]);
                }
            }
        }
        return matrix;
    }

    private static SparsePattern pattern(double[][] matrix) {
        var rows = java.util.stream.IntStream.builder();
        var columns = java.util.stream.IntStream.builder();
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < i; j++) {
                if (matrix[i][j] != 0) {
                    rows.add(i);
                    columns.add(j);
                }
            }
        }
        return SparsePattern.of(
                matrix.length, rows.build().toArray(), columns.build().toArray());
    }

    private static boolean factor(SparseCholesky into, SparsePattern pattern, double[][] matrix) {
        var diagonal = new double[matrix.length];
        var below = new double[pattern.entries()];
        for (int i = 0; i < matrix.length; i++) {
            diagonal[i] = matrix[i][i];
            for (int j = 0; j < i; j++) {
                if (matrix[i][j] != 0) {
                    below[pattern.position(i, j)] = matrix[i][j];
                }
            }
        }
        return into.factor(diagonal, below);
    }

    @ParameterizedTest
    @CsvSource({"1, 0", "2, 1", "7, 0.2", "12, 0.3", "40, 0.05", "40, 0.2", "40, 1", "60, 0.02"})
    void agreesWithTheFullFactor(int size, double share) {
        var pattern = pattern(positive(size, share, 1));
        var sparse = new SparseCholesky(pattern);
        for (double scale : new double[] {1, 3}) {
            double[][] matrix = positive(size, share, 1);
            for (int i = 0; i < size; i++) {
                matrix[i][i] *= scale;
            }
            assertTrue(factor(sparse, pattern, matrix));
            double[][] inverse = Cholesky.of(matrix).orElseThrow().inverse();
            double[] right = new Random(7).doubles(size, -3, 3).toArray();
            double[] x = right.clone();
            sparse.solveInPlace(x);
            sparse.invert();
            for (int i = 0; i < size; i++) {
                SUMMED.assertClose(Vectors.dot(inverse[i], right), x[i], 1);
                SUMMED.assertClose(inverse[i][i], sparse.inverseDiagonal(i), 1);
                for (int j = 0; j < i; j++) {
                    if (matrix[i][j] != 0) {
                        SUMMED.assertClose(inverse[i][j], sparse.inverseBelow(pattern.position(i, j)), 1);
                    }
                }
            }
        }
    }

    /** det of {{4, 2, 0}, {2, 3, 1}, {0, 1, 2}} = 4 (6 - 1) - 2 (4 - 0) = 12. */
    @Test
    void theDeterminantOfAMatrixWorkedByHand() {
        double[][] matrix = {{4, 2, 0}, {2, 3, 1}, {0, 1, 2}};
        var pattern = pattern(matrix);
        var sparse = new SparseCholesky(pattern);
        assertTrue(factor(sparse, pattern, matrix));
        CLOSED_FORM.assertClose(Math.log(12), sparse.logDeterminant());
    }

    /** An arrow that points down fills nothing in; one that points up fills everything. */
    @Test
    void theOrderOfColumnsDecidesWhatIsFilledIn() {
        assertEquals(
                4,
                SparsePattern.of(5, new int[] {4, 4, 4, 4}, new int[] {0, 1, 2, 3})
                        .entries());
        assertEquals(
                10,
                SparsePattern.of(5, new int[] {1, 2, 3, 4}, new int[] {0, 0, 0, 0})
                        .entries());
        assertEquals(1, SparsePattern.of(2, new int[] {1, 1}, new int[] {0, 0}).entries());
    }

    @Test
    void refusesWhatIsNotPositiveDefinite() {
        double[][][] wrong = {{{0}}, {{-1}}, {{Double.NaN}}, {{1, 1}, {1, 1}}, {{1, 2}, {2, 1}}};
        for (double[][] matrix : wrong) {
            var pattern = pattern(matrix);
            assertFalse(factor(new SparseCholesky(pattern), pattern, matrix));
        }
    }

    @Test
    void refusesEntriesThatAreNotBelowTheDiagonal() {
        var refused =
                assertThrows(IllegalArgumentException.class, () -> SparsePattern.of(3, new int[] {1}, new int[] {1}));
        assertEquals("entry in row 1, column 1: expected below the diagonal of 3 x 3", refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> SparsePattern.of(3, new int[] {3}, new int[] {1}));
        assertThrows(IllegalArgumentException.class, () -> SparsePattern.of(3, new int[] {1}, new int[] {-1}));
        var pattern = SparsePattern.of(3, new int[] {1}, new int[] {0});
        var missing = assertThrows(IllegalArgumentException.class, () -> pattern.position(2, 0));
        assertEquals("row 2, column 0: expected in the pattern", missing.getMessage());
    }
}
