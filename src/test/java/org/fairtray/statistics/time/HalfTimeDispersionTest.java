package org.fairtray.statistics.time;

import static org.fairtray.Tolerance.ITERATED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class HalfTimeDispersionTest {
    private static final List<Double> DAYS = List.of(1.0, 2.0, 3.0, 4.0);

    private static DayCounts tray(int times, long... events) {
        var counted = Arrays.stream(events).map(e -> e * times).boxed().toList();
        return new DayCounts(DAYS, counted, 50L * times);
    }

    private static List<DayCounts> trays(int times) {
        return List.of(tray(times, 4, 12, 16, 5), tray(times, 1, 8, 20, 9), tray(times, 8, 15, 11, 4));
    }

    private static double dispersion(List<DayCounts> trays) {
        return HalfTimeDispersion.of(LogLogisticCurve.of(trays).orElseThrow(), trays)
                .orElseThrow();
    }

    @Test
    void traysOfThriceTheSeedsThatDifferAsMuchAreThriceAsDispersed() {
        ITERATED.assertClose(3 * dispersion(trays(1)), dispersion(trays(3)));
    }

    @Test
    void identicalTraysDoNotDiffer() {
        var tray = tray(1, 4, 12, 16, 5);
        ITERATED.assertClose(0, dispersion(List.of(tray, tray, tray)));
    }

    @Test
    void traysThatDifferInTheirRateAloneDoNotDifferInTime() {
        var few = new DayCounts(DAYS, List.of(40L, 120L, 160L, 50L), 1000);
        var many = new DayCounts(DAYS, List.of(40L, 120L, 160L, 50L), 500);
        assertTrue(dispersion(List.of(few, many))
                < 0.05
                        * dispersion(List.of(
                                new DayCounts(DAYS, List.of(80L, 160L, 100L, 30L), 750),
                                new DayCounts(DAYS, List.of(20L, 80L, 180L, 90L), 750))));
    }

    @Test
    void oneTrayTellsNothing() {
        var one = trays(1).subList(0, 1);
        assertEquals(
                Optional.empty(), HalfTimeDispersion.of(LogLogisticCurve.of(one).orElseThrow(), one));
    }
}
