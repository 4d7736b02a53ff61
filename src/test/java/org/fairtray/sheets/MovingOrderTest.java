package org.fairtray.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.junit.jupiter.api.Test;

/** Trays carried as the list says never meet, and end where they belong. */
class MovingOrderTest {

    private static List<Tray> standing(List<Integer> places) {
        return IntStream.range(0, places.size())
                .mapToObj(i -> new Tray(
                        "T" + i, new Stand(List.of(places.get(i))), Map.of(), new Treatment(Map.of("mat", "hemp"))))
                .toList();
    }

    /** Does what the steps say, with one spare place, and gives how often a tray was set aside. */
    private static int carry(List<Tray> before, List<Tray> after) {
        var rack = new HashMap<Stand, String>();
        before.forEach(t -> rack.put(t.stand(), t.code()));
        String aside = null;
        int setAside = 0;
        for (var step : MovingOrder.of(before, after)) {
            if (step.from().isPresent()) {
                assertEquals(step.tray(), rack.remove(step.from().get()));
            } else {
                assertEquals(step.tray(), aside);
                aside = null;
            }
            if (step.to().isPresent()) {
                assertNull(rack.put(step.to().get(), step.tray()), () -> "no free place for " + step);
            } else {
                assertNull(aside, () -> "two set aside at " + step);
                aside = step.tray();
                setAside++;
            }
        }
        assertNull(aside);
        after.forEach(t -> assertEquals(t.code(), rack.get(t.stand())));
        return setAside;
    }

    @Test
    void oneTrayIsSetAsideForEachRing() {
        assertEquals(0, carry(standing(List.of(1, 2, 3)), standing(List.of(1, 2, 3))));
        assertEquals(1, carry(standing(List.of(1, 2, 3, 4)), standing(List.of(2, 3, 4, 1))));
        assertEquals(2, carry(standing(List.of(1, 2, 3, 4)), standing(List.of(2, 1, 4, 3))));
        // Place 4 is empty: the trays follow each other into it.
        assertEquals(0, carry(standing(List.of(1, 2, 3)), standing(List.of(2, 3, 4))));
    }

    @Test
    void traysThatStayAreNotTouched() {
        var steps = MovingOrder.of(standing(List.of(1, 2, 3)), standing(List.of(1, 3, 2)));
        assertEquals(3, steps.size());
        assertFalse(steps.stream().anyMatch(s -> s.tray().equals("T0")));
    }

    @Test
    void anyMoveOfAnyTraysCanBeCarriedOut() {
        var random = new Random(4);
        for (int time = 0; time < 500; time++) {
            int places = 1 + random.nextInt(12);
            int trays = 1 + random.nextInt(places);
            var numbers =
                    new ArrayList<>(IntStream.rangeClosed(1, places).boxed().toList());
            Collections.shuffle(numbers, random);
            var before = standing(List.copyOf(numbers.subList(0, trays)));
            Collections.shuffle(numbers, random);
            var after = standing(List.copyOf(numbers.subList(0, trays)));
            assertTrue(carry(before, after) <= trays / 2);
        }
    }
}
