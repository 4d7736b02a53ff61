package org.fairtray.statistics.comparisons;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Widths and chances by integration with R 4.2.2, up to four comparisons. */
class PlannedIntervalTest {
    private static final double NEAR = 1e-7;

    @ParameterizedTest
    @CsvFileSource(resources = "planned-interval.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            int comparisons, double df, double error, double alpha, double margin, double halfWidth, double chance) {
        var planned = PlannedInterval.of(comparisons, df, error, alpha);
        assertEquals(halfWidth, planned.halfWidth(), NEAR);
        assertEquals(chance, planned.chanceInside(margin), NEAR);
    }

    /**
     * Julious (2004), from memory: 26 σ² / margin² in each group show equivalence 9 times in 10 where nothing differs, for
     * large groups and a 95 % interval: 2 (1.960 + 1.645)² = 25.99.
     */
    @Test
    void agreesWithAPublishedRuleOfThumb() {
        double margin = 0.1;
        double group = 26 / (margin * margin);
        var planned = PlannedInterval.of(1, 2 * (group - 1), Math.sqrt(2 / group), 0.05);
        assertEquals(0.90, planned.chanceInside(margin), 1e-3);
    }

    @Test
    void noRoomIsNoChance() {
        var planned = PlannedInterval.of(1, 6, 0.1, 0.05);
        assertEquals(0, planned.chanceInside(1e-6), 1e-6);
        assertEquals(1, planned.chanceInside(100), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> PlannedInterval.of(1, 6, 0, 0.05));
    }
}
