package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Cells;
import org.fairtray.statistics.Vectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class OrthogonalPolynomialsTest {

    @ParameterizedTest
    @CsvFileSource(resources = "orthogonal-polynomials.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            @ConvertWith(Cells.Doubles.class) double[] levels, @ConvertWith(Cells.Rows.class) double[][] columns) {
        var polynomials = OrthogonalPolynomials.of(levels);
        assertEquals(columns.length, polynomials.highest());
        for (int j = 0; j < columns.length; j++) {
            for (int i = 0; i < levels.length; i++) {
                SUMMED.assertClose(columns[j][i], polynomials.normalised(j + 1)[i], 1);
            }
        }
    }

    /** Fisher and Yates (1963), Statistical Tables, 6th ed., table XXIII, five levels (from memory), over their factors. */
    @Test
    void evenLevelsGiveThePublishedIntegers() {
        var polynomials = OrthogonalPolynomials.of(1, 2, 3, 4, 5);
        SUMMED.assertClose(new double[] {-2, -1, 0, 1, 2}, polynomials.values(1));
        SUMMED.assertClose(new double[] {2, -1, -2, -1, 2}, polynomials.values(2));
        double[] cubic = polynomials.values(3);
        double[] quartic = polynomials.values(4);
        for (int i = 0; i < 5; i++) {
            SUMMED.assertClose(new double[] {-1, 2, 0, -2, 1}[i], cubic[i] * 5 / 6, 1);
            SUMMED.assertClose(new double[] {1, -4, 6, -4, 1}[i], quartic[i] * 35 / 12, 1);
        }
    }

    /** R 4.2.2: coef(lm(y ~ poly(x, j, raw = TRUE), weights = w))[j + 1] for j = 1, 2, 3. */
    @Test
    void contrastsGiveTheCoefficientsOfAWeightedFit() {
        var polynomials = OrthogonalPolynomials.weighted(new double[] {0, 8, 24, 30}, new double[] {3, 5, 2, 4});
        double[] means = {1, 4, 6, 5};
        double[] expected = {0.11649365628604381, -0.01134241083113237, -9.469696969696818e-05};
        for (int j = 0; j < 3; j++) {
            SUMMED.assertClose(expected[j], Vectors.dot(polynomials.contrast(j + 1), means));
        }
    }

    @Test
    void refusesLevelsThatAreTheSame() {
        var refused = assertThrows(IllegalArgumentException.class, () -> OrthogonalPolynomials.of(1, 1));
        assertEquals(
                "levels [1.0, 1.0], weights [1.0, 1.0]: expected two or more different levels, weights above 0",
                refused.getMessage());
        var polynomials = OrthogonalPolynomials.of(1, 2, 4);
        refused = assertThrows(IllegalArgumentException.class, () -> polynomials.values(3));
        assertEquals("degree 3: expected 1 to 2", refused.getMessage());
    }
}
