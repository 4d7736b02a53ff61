package org.fairtray.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Powers of R 4.2.2: pf(qf(1 - alpha, df1, df2), df1, df2, ncp = lambda, lower.tail = FALSE), as a Poisson mixture. */
class FPowerTest {
    private static final Tolerance NEAR = new Tolerance(1e-9);

    @ParameterizedTest
    @CsvFileSource(resources = "power-f.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(double df1, double df2, double lambda, double alpha, double power) {
        NEAR.assertClose(power, FPower.of(df1, df2, lambda, alpha));
    }

    /** R's documentation of power.anova.test: 4 groups, variance 1 between and 3 within, 0.80 with 11.92613 a group. */
    @Test
    void agreesWithAPublishedSampleSize() {
        double n = 11.92613;
        assertEquals(0.80, FPower.of(3, 4 * (n - 1), 3 * n / 3, 0.05), 1e-6);
    }

    @Test
    void endsAreExact() {
        assertEquals(0.05, FPower.of(2, 12, 0, 0.05), 1e-12);
        assertEquals(1, FPower.of(2, 12, Double.POSITIVE_INFINITY, 0.05));
        assertEquals(1, FPower.of(1, 10, 1e5, 0.05), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> FPower.of(0, 12, 1, 0.05));
        assertThrows(IllegalArgumentException.class, () -> FPower.of(1, 12, -1, 0.05));
    }
}
