package org.fairtray.design;

import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.Trials;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Stand;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Trays change places so that each stands everywhere, and no place always comes after the same one. */
class RotationScheduleTest {

    private static Trials rotating(int stacks, int layers, int days) {
        var levels = IntStream.range(0, layers).mapToObj(l -> "mat " + l).toArray(String[]::new);
        return Trials.of(
                        place("stack " + stacks, "layer " + layers + " across stack"),
                        List.of(factor("mat", "tray", levels)),
                        THROUGH)
                .rotating(new Rotation(
                        "layer", IntStream.rangeClosed(1, days).boxed().toList()));
    }

    /** Where each tray stands, spell by spell. */
    private static Map<String, List<Stand>> spells(Trials drawn, long seed) {
        Map<String, List<Stand>> spells = new LinkedHashMap<>();
        drawn.layout().trays().forEach(t -> spells.put(t.code(), new ArrayList<>(List.of(t.stand()))));
        RotationSchedule.of(drawn.trial(), drawn.layout(), seed)
                .forEach(m -> spells.get(m.tray()).add(m.to()));
        return spells;
    }

    @Test
    void theFirstRowsAreThoseOfWilliams() {
        assertArrayEquals(new int[] {0, 1, 3, 2}, RotationSchedule.firstRow(4, false));
        assertArrayEquals(new int[] {0, 1, 5, 2, 4, 3}, RotationSchedule.firstRow(6, false));
        assertArrayEquals(new int[] {0, 1, 4, 2, 3}, RotationSchedule.firstRow(5, false));
        assertArrayEquals(new int[] {3, 2, 4, 1, 0}, RotationSchedule.firstRow(5, true));
    }

    @ParameterizedTest
    @CsvSource({"1,2,1", "2,4,3", "3,6,5", "2,3,2", "4,5,4", "2,4,9", "3,4,1", "2,7,3"})
    void noTwoTraysMeetAndEachStandsEverywhereEquallyOften(int stacks, int layers, int days) {
        var drawn = rotating(stacks, layers, days).drawn(3);
        var spells = spells(drawn, 3);
        for (int day = 0; day <= days; day++) {
            var taken = new HashSet<Stand>();
            for (var own : spells.values()) {
                assertTrue(taken.add(own.get(day)), "two trays at one place");
            }
        }
        spells.values().forEach(own -> {
            assertEquals(1, own.stream().map(s -> s.at().get(0)).distinct().count(), "a tray left its stack");
            Map<Integer, Integer> visits = new HashMap<>();
            own.forEach(s -> visits.merge(s.at().get(1), 1, Integer::sum));
            int fewest = (days + 1) / layers;
            visits.values().forEach(n -> assertTrue(n == fewest || n == fewest + 1, visits::toString));
            assertEquals(Math.min(layers, days + 1), visits.size());
        });
    }

    @ParameterizedTest
    @CsvSource({"1,2", "1,4", "1,6", "1,8", "2,3", "2,5", "4,7"})
    void eachLayerFollowsEachOtherEquallyOften(int stacks, int layers) {
        Map<List<Integer>, Integer> pairs = new HashMap<>();
        var drawn = rotating(stacks, layers, layers - 1).drawn(5);
        spells(drawn, 5).values().forEach(own -> {
            for (int d = 1; d < own.size(); d++) {
                pairs.merge(List.of(own.get(d - 1).at().get(1), own.get(d).at().get(1)), 1, Integer::sum);
            }
        });
        assertEquals(layers * (layers - 1), pairs.size());
        assertEquals(1, pairs.values().stream().distinct().count(), pairs::toString);
    }

    @Test
    void whichLayerComesNextIsDrawnWithTheSameChance() {
        Map<Integer, Integer> next = new HashMap<>();
        var drawn = rotating(1, 4, 1).drawn(1);
        for (long seed = 0; seed < 3000; seed++) {
            next.merge(spells(drawn, seed).get("T01").get(1).at().get(1), 1, Integer::sum);
        }
        Uniformity.assertUniform(next.values(), 3, 3000);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void theSameSeedGivesTheSameMoves(long seed) {
        var drawn = rotating(3, 4, 3).drawn(seed);
        assertEquals(spells(drawn, seed), spells(drawn, seed));
        assertNotEquals(spells(drawn, seed), spells(drawn, seed + 1));
    }

    @Test
    void whatTheMovesComeToIsSaid() {
        assertEquals(
                "Trays change layer on day 1, 2, 3: each stands at each of the 4 places for 1 of 4 spells, and each place"
                        + " follows each other place equally often.",
                described(2, 4, 3));
        assertEquals(
                "Trays change layer on day 1, 2: each stands at each of the 4 places for 0 or 1 of 3 spells.",
                described(2, 4, 2));
    }

    private static String described(int stacks, int layers, int days) {
        var drawn = rotating(stacks, layers, days).drawn(1);
        return RotationSchedule.describe(
                drawn.trial(), drawn.layout(), RotationSchedule.of(drawn.trial(), drawn.layout(), 1));
    }

    @Test
    void aRotatedLevelNeedsNoSetsOfItsOwn() {
        // 2 stacks of 6 layers can't hold 6 levels equally often over both; where trays rotate, stacks alone are
        // blocks.
        var trials = Trials.of(
                place("stack 2", "layer 6 across stack"),
                List.of(factor("mat", "tray", "a", "b", "c", "d", "e", "f")),
                THROUGH);
        assertThrows(DoesNotFitException.class, () -> trials.drawn(1));
        var rotated = trials.rotating(new Rotation("layer", List.of(1, 2)));
        assertEquals(
                List.of("stack"),
                Randomisation.of(rotated.trial()).steps().get(0).within());
        assertEquals(12, rotated.drawn(1).layout().trays().size());
    }
}
