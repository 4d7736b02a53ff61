package org.fairtray.statistics.time;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Wilson;
import org.junit.jupiter.api.Test;

class StepCurveTest {
    private static final StepCurve CURVE = new StepCurve(Trays.tray("1 2 4 7; 0 6 18 16; 50"));

    @Test
    void sharesAreThoseCountedUpToEachDay() {
        CLOSED_FORM.assertClose(
                new double[] {0, 0.12, 0.48, 0.8}, CURVE.rate(0), CURVE.rate(1), CURVE.rate(2), CURVE.rate(3));
        assertEquals(Wilson.interval(new Count(24, 50), 2, 0.9), CURVE.interval(2, 2, 0.9));
        assertEquals(0, CURVE.interval(0, 1, 0.95).low());
    }

    /** Number 20 of 40 is passed between days 2 and 4, 14/18 of the way; 20.5 a little later. */
    @Test
    void halfIsPassedBetweenReadings() {
        assertEquals(Optional.of(new Interval(2, 4)), CURVE.halfWithin());
        CLOSED_FORM.assertClose(2 + 2 * 14 / 18.0, CURVE.halfTimeFarooq().orElseThrow());
        CLOSED_FORM.assertClose(2 + 2 * 14.5 / 18.0, CURVE.halfTimeCoolbear().orElseThrow());
        CLOSED_FORM.assertClose(4 + 3 / 16.0, CURVE.halfTimeOfSown().orElseThrow());
    }

    @Test
    void allInOneIntervalIsPassedInItsMiddle() {
        var curve = new StepCurve(Trays.tray("2 3 5; 0 0 8; 10"));
        assertEquals(Optional.of(new Interval(3, 5)), curve.halfWithin());
        CLOSED_FORM.assertClose(4, curve.halfTimeFarooq().orElseThrow());
        CLOSED_FORM.assertClose(3 + 9 / 8.0, curve.halfTimeCoolbear().orElseThrow());
    }

    @Test
    void theFirstReadingIsReckonedFromDayNought() {
        var curve = new StepCurve(Trays.tray("2 3; 10 0; 10"));
        assertEquals(Optional.of(new Interval(0, 2)), curve.halfWithin());
        CLOSED_FORM.assertClose(1, curve.halfTimeFarooq().orElseThrow());
    }

    @Test
    void nothingPassesHalfWhereNothingGerminated() {
        var curve = new StepCurve(Trays.tray("2 3; 0 0; 10"));
        assertTrue(curve.halfWithin().isEmpty());
        assertTrue(curve.halfTimeFarooq().isEmpty() && curve.halfTimeCoolbear().isEmpty());
        assertTrue(curve.halfTimeOfSown().isEmpty());
        assertEquals(0, curve.interval(1, 1, 0.95).low());
    }

    @Test
    void countsThatCannotBeAreRefused() {
        refused("0 counts on days []: expected one for each, days rising from above 0", List.of(), List.of(), 5);
        refused(
                "2 counts on days [2.0, 2.0]: expected one for each, days rising from above 0",
                List.of(2.0, 2.0),
                List.of(1L, 1L),
                5);
        refused(
                "events [3, 4] of 5 seeds: expected 0 or more each, at most the seeds together",
                List.of(1.0, 2.0),
                List.of(3L, 4L),
                5);
        var one = Trays.tray("1 2; 1 1; 5");
        var other = Trays.tray("1 3; 1 1; 5");
        var refused = assertThrows(IllegalArgumentException.class, () -> one.plus(other));
        assertEquals("days [1.0, 2.0] and [1.0, 3.0]: expected the same", refused.getMessage());
    }

    private static void refused(String message, List<Double> days, List<Long> events, long seeds) {
        var refused = assertThrows(IllegalArgumentException.class, () -> new DayCounts(days, events, seeds));
        assertEquals(message, refused.getMessage());
    }
}
