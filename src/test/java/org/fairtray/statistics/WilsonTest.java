package org.fairtray.statistics;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WilsonTest {

    @ParameterizedTest
    @CsvFileSource(resources = "wilson.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(long successes, long trials, double level, double low, double high) {
        var interval = Wilson.interval(new Count(successes, trials), 1, level);
        CLOSED_FORM.assertClose(low, interval.low());
        CLOSED_FORM.assertClose(high, interval.high());
    }

    @ParameterizedTest
    @CsvSource({"0, 200, 2", "40, 200, 2", "60, 300, 3", "500, 500, 5"})
    void countsAsFewerTrialsWhereTheyAreAlike(long successes, long trials, long dispersion) {
        var fewer = Wilson.interval(new Count(successes / dispersion, trials / dispersion), 1, 0.95);
        var alike = Wilson.interval(new Count(successes, trials), (double) dispersion, 0.95);
        CLOSED_FORM.assertClose(fewer.low(), alike.low());
        CLOSED_FORM.assertClose(fewer.high(), alike.high());
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 1.5, 40, 1e6})
    void staysWithinBoundsAndHasWidth(double dispersion) {
        for (int successes = 0; successes <= 7; successes++) {
            var interval = Wilson.interval(new Count(successes, 7), dispersion, 0.95);
            assertTrue(0 <= interval.low() && interval.low() <= successes / 7.0, interval::toString);
            assertTrue(successes / 7.0 <= interval.high() && interval.high() <= 1, interval::toString);
            assertTrue(interval.low() < interval.high(), interval::toString);
        }
    }

    @Test
    void refusesWhatCannotBe() {
        var nothing = new Count(0, 0);
        var some = new Count(1, 2);
        assertThrows(IllegalArgumentException.class, () -> Wilson.interval(nothing, 1, 0.95));
        assertThrows(IllegalArgumentException.class, () -> Wilson.interval(some, Double.NaN, 0.95));
        var narrower = assertThrows(IllegalArgumentException.class, () -> Wilson.interval(some, 0.9, 0.95));
        assertEquals(
                "Count[successes=1, trials=2] with dispersion 0.9: expected trials above 0 and dispersion from 1",
                narrower.getMessage());
    }
}
