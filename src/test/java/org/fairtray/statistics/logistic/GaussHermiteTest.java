package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class GaussHermiteTest {
    /** The table prints weights to 13 digits and nodes to 15 places. */
    private static final Tolerance PRINTED = new Tolerance(2e-12);

    @ParameterizedTest
    @CsvFileSource(resources = "gauss-hermite.csv", useHeadersInDisplayName = true)
    void agreesWithTheTable(
            int points,
            @ConvertWith(Cells.Doubles.class) double[] nodes,
            @ConvertWith(Cells.Doubles.class) double[] w) {
        var rule = GaussHermite.of(points);
        assertEquals((points + 1) / 2, nodes.length);
        for (int j = 0; j < nodes.length; j++) {
            int high = nodes.length - 1 - j;
            PRINTED.assertClose(nodes[j], rule.node(high), 1);
            PRINTED.assertClose(-nodes[j], rule.node(points - 1 - high), 1);
            PRINTED.assertClose(w[j], rule.weight(high));
            PRINTED.assertClose(w[j], rule.weight(points - 1 - high));
        }
    }

    /** Integral of x^(2n) exp(-x^2): Gamma(n + 1/2); each is (n - 1/2) times the one before. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 9, 25, 40, 100})
    void evenPowersBelowTwiceThePointsAreExact(int points) {
        var rule = GaussHermite.of(points);
        double exact = Math.sqrt(Math.PI);
        for (int n = 0; n < points; n++) {
            double sum = 0;
            for (int j = 0; j < points; j++) {
                sum += rule.weight(j) * Math.pow(rule.node(j), 2 * n);
                assertTrue(j == 0 || rule.node(j) < rule.node(j - 1));
            }
            new Tolerance(1e-10).assertClose(exact, sum);
            exact *= n + 0.5;
        }
    }

    @Test
    void onePointIsTheMiddle() {
        CLOSED_FORM.assertClose(0, GaussHermite.of(1).node(0));
        CLOSED_FORM.assertClose(Math.sqrt(Math.PI), GaussHermite.of(1).weight(0));
    }

    @Test
    void refusesOtherNumbersOfPoints() {
        var refused = assertThrows(IllegalArgumentException.class, () -> GaussHermite.of(0));
        assertEquals("0 points: expected 1 to 100", refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> GaussHermite.of(101));
    }
}
