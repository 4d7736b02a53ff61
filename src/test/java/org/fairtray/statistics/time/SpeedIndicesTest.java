package org.fairtray.statistics.time;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class SpeedIndicesTest {
    private static final DayCounts EIGHT_DAYS = Trays.tray("1 2 3 4 5 6 7 8; 0 6 18 9 4 2 1 0; 50");

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "indices.csv", useHeadersInDisplayName = true, nullValues = "none")
    void agreesWithTheReference(
            String name,
            @ConvertWith(Trays.class) List<DayCounts> trays,
            double mean,
            Double variance,
            double maguire,
            double accumulated,
            double index,
            double timson,
            double uncertainty,
            Double synchrony,
            Double uniformity,
            double coolbear,
            double farooq,
            Double sown,
            double u7525,
            double u8416,
            double u9010) {
        var indices = SpeedIndices.of(trays.get(0)).orElseThrow();
        CLOSED_FORM.assertClose(mean, indices.meanTime());
        assertClose(variance, indices.variance());
        CLOSED_FORM.assertClose(maguire, indices.maguireSpeed());
        CLOSED_FORM.assertClose(accumulated, indices.accumulatedSpeed());
        CLOSED_FORM.assertClose(index, indices.germinationIndex());
        CLOSED_FORM.assertClose(timson, indices.timsonSum());
        CLOSED_FORM.assertClose(uncertainty, indices.uncertainty());
        assertClose(synchrony, indices.synchrony());
        assertClose(uniformity, indices.uniformity());
        CLOSED_FORM.assertClose(u7525, indices.spread(0.25, 0.75));
        CLOSED_FORM.assertClose(u8416, indices.spread(0.16, 0.84));
        CLOSED_FORM.assertClose(u9010, indices.spread(0.1, 0.9));
        var curve = new StepCurve(trays.get(0));
        assertClose(coolbear, curve.halfTimeCoolbear());
        assertClose(farooq, curve.halfTimeFarooq());
        assertClose(sown, curve.halfTimeOfSown());
    }

    private static void assertClose(Double expected, Optional<Double> actual) {
        assertEquals(expected == null, actual.isEmpty());
        actual.ifPresent(found -> CLOSED_FORM.assertClose(expected, found));
    }

    /** A worked example: 50 seeds, 0, 6, 18, 9, 4, 2, 1, 0 new on days 1 to 8; by hand, six figures. */
    @Test
    void theWorkedExampleComesOutAsByHand() {
        var sixFigures = new Tolerance(5e-6);
        var indices = SpeedIndices.of(EIGHT_DAYS).orElseThrow();
        sixFigures.assertClose(0.8, indices.finalRate());
        sixFigures.assertClose(3.525, indices.meanTime());
        sixFigures.assertClose(0.18601, indices.meanTimeStandardError().orElseThrow(), 1);
        sixFigures.assertClose(0.33374, indices.coefficientOfVariation().orElseThrow(), 1);
        sixFigures.assertClose(0.283688, indices.meanRate());
        sixFigures.assertClose(28.3688, indices.coefficientOfVelocity());
        sixFigures.assertClose(25.0524, indices.maguireSpeedOfPercent());
        assertEquals(179, indices.germinationIndexFromLast(), 1e-9);
        assertEquals(2, indices.firstDay());
        assertEquals(7, indices.lastDay());
        assertEquals(5, indices.timeSpread());
    }

    @Test
    void whereNothingGerminatedThereAreNone() {
        assertTrue(SpeedIndices.of(Trays.tray("1 2 3; 0 0 0; 50")).isEmpty());
    }

    @Test
    void refusesSharesThatDoNotRise() {
        var indices = SpeedIndices.of(EIGHT_DAYS).orElseThrow();
        var refused = assertThrows(IllegalArgumentException.class, () -> indices.spread(0.75, 0.25));
        assertEquals("shares 0.75 to 0.25: expected 0 < from < to <= 1", refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> indices.spread(0, 0.25));
    }
}
