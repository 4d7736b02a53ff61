package org.fairtray.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** Powers and sample sizes of R 4.2.2, and published ones. */
class FPowerTest {
    private static final Tolerance NEAR = new Tolerance(1e-9);

    @ParameterizedTest
    @CsvFileSource(resources = "power-f.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(double df1, double df2, double lambda, double alpha, double power) {
        NEAR.assertClose(power, FPower.of(df1, df2, lambda, alpha));
    }

    /** λ of the one-way layout: (groups − 1) × n × the ratio of the variances. R's own sum stops at an error of 1e-9. */
    @ParameterizedTest
    @CsvFileSource(resources = "power-anova.csv", useHeadersInDisplayName = true)
    void agreesWithOneWayLayouts(int groups, int n, double ratio, double alpha, double power) {
        assertEquals(power, FPower.of(groups - 1, groups * (n - 1), (groups - 1) * n * ratio, alpha), 2e-9);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "power-f.csv", useHeadersInDisplayName = true)
    void nonCentralityGivesItsPowerBack(double df1, double df2, double lambda, double alpha, double power) {
        if (power < 0.999) {
            assertEquals(lambda, new FPower(df1, df2, alpha).nonCentrality(power), 1e-6 * (1 + lambda));
        }
    }

    /**
     * Cohen (1992), Psychological Bulletin 112, 155-159, table 2, from memory: trays in each of k groups for power 0.80 at
     * 0.05 and effects f of 0.10, 0.25 and 0.40; the exact sizes of R's power.anova.test lie within 0.5 of them.
     */
    @ParameterizedTest
    @CsvSource({
        "0.10, 2, 393", "0.10, 3, 322", "0.10, 4, 274", "0.10, 5, 240", "0.10, 6, 215", "0.10, 7, 195",
        "0.25, 2, 64", "0.25, 3, 52", "0.25, 4, 45", "0.25, 5, 39", "0.25, 6, 35", "0.25, 7, 32",
        "0.40, 2, 26", "0.40, 3, 21", "0.40, 4, 18", "0.40, 5, 16", "0.40, 6, 14", "0.40, 7, 13"
    })
    void agreesWithPublishedTables(double f, int groups, int printed) {
        assertTrue(oneWay(f, groups, printed + 0.6) > 0.80);
        assertTrue(oneWay(f, groups, printed - 0.6) < 0.80);
    }

    private static double oneWay(double f, int groups, double n) {
        return FPower.of(groups - 1, groups * (n - 1), f * f * groups * n, 0.05);
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
        assertEquals(0, new FPower(1, 12, 0.05).nonCentrality(0.05));
        assertEquals(1, FPower.of(1, 12, new FPower(1, 12, 0.05).nonCentrality(1 - 1e-12), 0.05), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> FPower.of(1, 12, -1, 0.05));
        assertThrows(IllegalArgumentException.class, () -> new FPower(1, 12, 0.05).nonCentrality(1));
    }
}
