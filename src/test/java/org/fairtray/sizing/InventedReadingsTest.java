package org.fairtray.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.ReadyPlans;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

class InventedReadingsTest {
    private static final Trial TRIAL = TrialFiles.of(Map.of(
                    "plan.yaml", ReadyPlans.like("weight-by-soak").getBytes(java.nio.charset.StandardCharsets.UTF_8)))
            .trial();
    private static final Layout LAYOUT = Randomisation.of(TRIAL).draw(Generator.of(1));

    private static List<Reading> readings(Map<String, Double> unitSd, long seed) {
        return new InventedReadings(t -> 2, t -> 0, t -> 2.5, unitSd).of(TRIAL, LAYOUT, Generator.of(seed));
    }

    @Test
    void theOrderInWhichLevelsAreNamedChangesNothing() {
        var forwards = new LinkedHashMap<String, Double>();
        var backwards = new LinkedHashMap<String, Double>();
        for (var level : List.of("shelf", "stack", "tray")) {
            forwards.put(level, 0.1 * level.length());
        }
        for (var level : List.of("tray", "stack", "shelf")) {
            backwards.put(level, 0.1 * level.length());
        }
        assertEquals(readings(forwards, 5), readings(backwards, 5));
        assertNotEquals(readings(forwards, 5), readings(forwards, 6));
    }

    @Test
    void readsEveryFrameOnEveryDayAndCountsNeverFallNorPassWhatTheyAreOf() {
        var readings = readings(Map.of("tray", 0.2), 5);
        assertEquals(LAYOUT.trays().size() * 2 * 6, readings.size());
        for (int i = 0; i < readings.size(); i++) {
            var now = readings.get(i);
            assertEquals(OptionalInt.empty(), now.sown());
            assertTrue(now.values().get("through") <= now.values().get("germinated"), now::toString);
            assertTrue(now.values().get("germinated") <= TRIAL.counting().seedsPerFrame(), now::toString);
            if (now.day() > 1) {
                var before = readings.get(i - 1);
                assertEquals(before.tray(), now.tray());
                assertTrue(before.values().get("through") <= now.values().get("through"), now::toString);
                assertTrue(before.values().get("germinated") <= now.values().get("germinated"), now::toString);
            }
        }
    }

    /** Of 4800 seeds that all germinate in the end, about rate x 4800 root through: four standard errors either way. */
    @Test
    void seedsRootThroughAtTheRateThatWasAskedFor() {
        var readings = new InventedReadings(t -> 50, t -> -0.5, t -> 0.1, Map.of()).of(TRIAL, LAYOUT, Generator.of(5));
        double expected = 1 / (1 + Math.exp(0.5));
        double seeds = LAYOUT.trays().size() * 2.0 * TRIAL.counting().seedsPerFrame();
        double through = readings.stream()
                .filter(r -> r.day() == 6)
                .mapToDouble(r -> r.values().get("through"))
                .sum();
        // A root that takes longer than to day 6 isn't counted: its lag is 1 day and an exponential one of mean 1 day.
        double inTime = expected * (1 - Math.exp(-(6 - 0.1 - 1)));
        assertEquals(inTime, through / seeds, 4 * Math.sqrt(inTime * (1 - inTime) / seeds));
    }
}
