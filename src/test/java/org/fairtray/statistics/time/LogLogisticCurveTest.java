package org.fairtray.statistics.time;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class LogLogisticCurveTest {
    /** Errors and profiles of the reference are by numerical second derivatives and a search without derivatives. */
    private static final Tolerance NUMERICAL = new Tolerance(2e-6);

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "curves.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 10_000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Trays.class) List<DayCounts> trays,
            double finalRate,
            double steepness,
            double halfTime,
            double logLikelihood,
            double error,
            double low,
            double high) {
        var curve = LogLogisticCurve.of(trays).orElseThrow();
        ITERATED.assertClose(finalRate, curve.finalRate());
        ITERATED.assertClose(steepness, curve.steepness());
        ITERATED.assertClose(halfTime, curve.halfTime());
        SUMMED.assertClose(logLikelihood, curve.logLikelihood());
        NUMERICAL.assertClose(error, curve.logHalfTimeStandardError());
        assertEquals(finalRate == 1, curve.endsAtOne());
        var interval = curve.finalRateInterval(0.95, 1);
        NUMERICAL.assertClose(low, interval.low());
        NUMERICAL.assertClose(high, interval.high());
        double z = Tail.normalQuantile(0.975);
        NUMERICAL.assertClose(
                halfTime * Math.exp(-z * error), curve.halfTimeInterval(0.95, 1).low());
        NUMERICAL.assertClose(
                halfTime * Math.exp(2 * z * error),
                curve.halfTimeInterval(0.95, 4).high());
    }

    /** Numbers in proportion to a known curve give it back, but for their rounding to whole seeds. */
    @Test
    void givesBackTheCurveThatMadeTheCounts() {
        var events = new long[6];
        double before = 0;
        for (int day = 1; day <= 6; day++) {
            double now = 0.8 / (1 + Math.pow(day / 2.7, -5));
            events[day - 1] = Math.round(1e9 * (now - before));
            before = now;
        }
        var tray = new DayCounts(
                List.of(1.0, 2.0, 3.0, 4.0, 5.0, 6.0),
                java.util.Arrays.stream(events).boxed().toList(),
                1_000_000_000);
        var curve = LogLogisticCurve.of(List.of(tray)).orElseThrow();
        ITERATED.assertClose(new double[] {0.8, 5, 2.7}, curve.finalRate(), curve.steepness(), curve.halfTime());
        ITERATED.assertClose(0.4, curve.rate(2.7));
        assertEquals(0, curve.rate(0));
    }

    @Test
    void traysAddUpWhateverTheirOrder() {
        var one = Trays.tray("1 2 3 4; 2 20 9 3; 50");
        var other = Trays.tray("1 2 3 4; 0 12 20 4; 50");
        var apart = LogLogisticCurve.of(List.of(one, other)).orElseThrow();
        var together = LogLogisticCurve.of(List.of(other.plus(one))).orElseThrow();
        SUMMED.assertClose(apart.halfTime(), together.halfTime());
        SUMMED.assertClose(apart.finalRate(), together.finalRate());
    }

    /** Nothing; all in one interval; in two that adjoin; too few readings; no seed left at the only two readings. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "1 2 3; 0 0 0; 50",
                "1 2 3 4; 0 30 0 0; 50",
                "1 2 3 4; 0 50 0 0; 50",
                "1 2 3 4; 0 30 10 0; 50",
                "1 2 3 4; 0 30 20 0; 50",
                "1 2; 10 20; 50",
                "3; 20; 50",
                "3; 50; 50"
            })
    void whatTheCountsDoNotDetermineIsEmpty(String tray) {
        assertEquals(
                List.of(),
                LogLogisticCurve.of(List.of(Trays.tray(tray))).stream().toList());
    }

    @Test
    void refusesADispersionBelowOne() {
        var curve = LogLogisticCurve.of(List.of(Trays.tray("1 2 3 4; 2 20 9 3; 50")))
                .orElseThrow();
        var refused = assertThrows(IllegalArgumentException.class, () -> curve.halfTimeInterval(0.95, 0.5));
        assertEquals("dispersion 0.5: expected 1 or more", refused.getMessage());
        assertTrue(curve.finalRateInterval(0.95, 3).low()
                < curve.finalRateInterval(0.95, 1).low());
    }
}
