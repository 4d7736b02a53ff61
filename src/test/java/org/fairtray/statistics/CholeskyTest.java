package org.fairtray.statistics;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CholeskyTest {

    /** B'B + I of a random B, which is positive definite. */
    private static double[][] positive(int size) {
        var random = new Random(size);
        var b = new double[size][size];
        for (var row : b) {
            for (int j = 0; j < size; j++) {
                row[j] = random.nextGaussian();
            }
        }
        var positive = new double[size][size];
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                positive[i][j] = Vectors.dot(b[i], b[j]) + (i == j ? 1 : 0);
            }
        }
        return positive;
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 5, 12, 40})
    void aSolutionGivesBackTheRightSide(int size) {
        double[][] matrix = positive(size);
        double[] right = new Random(7).doubles(size, -3, 3).toArray();
        double[] x = Cholesky.of(matrix).orElseThrow().solve(right);
        for (int i = 0; i < size; i++) {
            SUMMED.assertClose(right[i], Vectors.dot(matrix[i], x), 1);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 5, 12, 40})
    void theInverseTimesTheMatrixIsTheIdentity(int size) {
        double[][] matrix = positive(size);
        double[][] inverse = Cholesky.of(matrix).orElseThrow().inverse();
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                SUMMED.assertClose(i == j ? 1 : 0, Vectors.dot(inverse[i], matrix[j]), 1);
            }
        }
    }

    /** x'x = b'A^-1 b, and the determinant of 4 2, 2 3 is 8. */
    @Test
    void forwardSolvingAndTheDeterminantAreThoseOfTheFactor() {
        var factor = Cholesky.of(new double[][] {{4, 2}, {2, 3}}).orElseThrow();
        CLOSED_FORM.assertClose(8 * 1 + 8 * 2, Vectors.squaredLength(factor.forward(new double[] {8, 8})));
        CLOSED_FORM.assertClose(Math.log(8), factor.logDeterminant());
    }

    @Test
    void solvesASystemWorkedByHand() {
        var factor = Cholesky.of(new double[][] {{4, 2}, {2, 3}}).orElseThrow();
        CLOSED_FORM.assertClose(new double[] {1, 2}, factor.solve(new double[] {8, 8}));
    }

    @Test
    void readsOnlyTheLowerTriangle() {
        var factor = Cholesky.of(new double[][] {{4, Double.NaN}, {2, 3}}).orElseThrow();
        CLOSED_FORM.assertClose(new double[] {1, 2}, factor.solve(new double[] {8, 8}));
    }

    @Test
    void leavesWhatItWasGiven() {
        double[][] matrix = {{4, 2}, {2, 3}};
        double[] right = {8, 8};
        Cholesky.of(matrix).orElseThrow().solve(right);
        assertArrayEquals(new double[][] {{4, 2}, {2, 3}}, matrix);
        assertArrayEquals(new double[] {8, 8}, right);
    }

    @Test
    void refusesWhatIsNotPositiveDefinite() {
        assertEquals(Optional.empty(), Cholesky.of(new double[][] {{0}}));
        assertEquals(Optional.empty(), Cholesky.of(new double[][] {{-1}}));
        assertEquals(Optional.empty(), Cholesky.of(new double[][] {{1, 1}, {1, 1}}));
        assertEquals(Optional.empty(), Cholesky.of(new double[][] {{1, 2}, {2, 1}}));
        assertEquals(Optional.empty(), Cholesky.of(new double[][] {{Double.NaN}}));
        assertEquals(Optional.empty(), Cholesky.of(new double[][] {{1, 0}, {Double.NaN, 1}}));
    }
}
