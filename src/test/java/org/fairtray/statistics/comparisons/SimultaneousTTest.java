package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class SimultaneousTTest {
    /** Directions are a sample, if an even one; so is the reference, to some 3e-5. */
    private static final Tolerance OF_LATTICE = new Tolerance(1e-4);

    /** At worst that of a sample: sqrt(p (1 - p) / 2^18) with p = 1/2. */
    private static final Tolerance OF_LARGE_P = new Tolerance(1e-3);

    private static Tolerance tolerance(double p) {
        return p < 0.2 ? OF_LATTICE : OF_LARGE_P;
    }

    @ParameterizedTest(name = "{0} {2} {3}")
    @CsvFileSource(resources = "simultaneous-t.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            String name, @ConvertWith(Cells.Rows.class) double[][] correlation, double df, double t, double p) {
        tolerance(p).assertClose(p, SimultaneousT.of(correlation, df).p(-t), 1);
    }

    private static double[][] equal(int k, double correlation) {
        var matrix = new double[k][k];
        for (int i = 0; i < k; i++) {
            java.util.Arrays.fill(matrix[i], correlation);
            matrix[i][i] = 1;
        }
        return matrix;
    }

    /** Both ways must give the same: the exact integral, and directions. */
    @ParameterizedTest
    @ValueSource(ints = {2, 3, 5, 8, 12})
    void directionsComeNearTheExactIntegral(int k) {
        for (double df : new double[] {3, 15, Double.POSITIVE_INFINITY}) {
            var exact = Dunnett.equal(k, df);
            double critical = exact.quantile(0.95);
            var directions = Directions.of(equal(k, 0.5), df);
            OF_LATTICE.assertClose(0.05, directions.upper(critical), 1);
            tolerance(exact.p(1.5)).assertClose(exact.p(1.5), directions.upper(1.5), 1);
        }
    }

    @Test
    void productsGoTheExactWay() {
        double[] loadings = {0.3, -0.6, 0.8, 0.5};
        var correlation = equal(4, 0);
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < i; j++) {
                correlation[i][j] = loadings[i] * loadings[j];
                correlation[j][i] = correlation[i][j];
            }
        }
        var simultaneous = SimultaneousT.of(correlation, 9);
        SUMMED.assertClose(Dunnett.loadings(loadings, 9).p(2), simultaneous.p(2));
        ITERATED.assertClose(Dunnett.loadings(loadings, 9).quantile(0.9), simultaneous.quantile(0.9));
        SUMMED.assertClose(
                Dunnett.equal(1, 4).p(2), SimultaneousT.of(equal(1, 1), 4).p(2));
        SUMMED.assertClose(
                Dunnett.loadings(new double[] {0.5, -0.5}, 4).p(2),
                SimultaneousT.of(equal(2, -0.25), 4).p(2));
    }

    /** Comparisons that say the same are one. */
    @Test
    void oneComparisonTwiceIsOne() {
        var twice = SimultaneousT.of(new double[][] {{1, -1}, {-1, 1}}, 6);
        ITERATED.assertClose(Tail.tTwoSided(2, 6), twice.p(2));
        ITERATED.assertClose(Tail.tQuantile(0.975, 6), twice.quantile(0.95));
        assertEquals(1, twice.p(0));
    }

    /** All pairs of equal means, whose correlations leave one dimension out, are the studentised range. */
    @Test
    void allPairsAreTheStudentisedRange() {
        double[][] pairs = {{1, -1, 0, 0}, {1, 0, -1, 0}, {1, 0, 0, -1}, {0, 1, -1, 0}, {0, 1, 0, -1}, {0, 0, 1, -1}};
        var correlation = new double[6][6];
        for (int i = 0; i < 6; i++) {
            for (int j = 0; j < 6; j++) {
                correlation[i][j] = org.fairtray.statistics.Vectors.dot(pairs[i], pairs[j]) / 2;
            }
        }
        var range = StudentizedRange.of(4, 10);
        var simultaneous = SimultaneousT.of(correlation, 10);
        double q = range.quantile(0.95);
        new Tolerance(1e-5).assertClose(0.05, simultaneous.p(q / Math.sqrt(2)), 1);
        new Tolerance(1e-3).assertClose(q / Math.sqrt(2), simultaneous.quantile(0.95));
    }

    @Test
    void refusesWhatAreNoCorrelations() {
        var refused = assertThrows(
                IllegalArgumentException.class, () -> SimultaneousT.of(new double[][] {{1, 0.5}, {0.4, 1}}, 5));
        assertEquals(
                "correlations [[1.0, 0.5], [0.4, 1.0]]: expected a symmetric matrix with 1 on its diagonal",
                refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> SimultaneousT.of(new double[0][0], 5));
        refused = assertThrows(IllegalArgumentException.class, () -> SimultaneousT.of(equal(2, 0.5), 0));
        assertEquals("0.0 degrees of freedom: expected a number above 0", refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> SimultaneousT.of(equal(3, -0.9), 5));
    }
}
