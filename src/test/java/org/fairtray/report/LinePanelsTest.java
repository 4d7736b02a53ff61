package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LinePanelsTest {

    private static List<Map<String, String>> factorial(int... levels) {
        List<Map<String, String>> all = List.of(Map.of());
        for (int f = 0; f < levels.length; f++) {
            var longer = new ArrayList<Map<String, String>>();
            for (var start : all) {
                for (int level = 0; level < levels[f]; level++) {
                    var treatment = new LinkedHashMap<>(start);
                    treatment.put("f" + f, "" + level);
                    longer.add(treatment);
                }
            }
            all = longer;
        }
        return all;
    }

    @Test
    void keepsFewTogether() {
        assertEquals(1, LinePanels.of(factorial(2, 3), 6).size());
    }

    @Test
    void splitsByTheFactorThatNeedsFewestPanels() {
        var panels = LinePanels.of(factorial(2, 2, 3), 6);
        assertEquals(2, panels.size());
        assertEquals(List.of("f0"), List.copyOf(panels.get(0).common().keySet()));
    }

    @Test
    void goesInOrderWhereNoFactorHelps() {
        var panels = LinePanels.of(factorial(40), 6);
        assertEquals(7, panels.size());
        assertTrue(panels.get(0).common().isEmpty());
    }

    @ParameterizedTest
    @CsvSource({"2, 3, 4", "7, 2, 1", "1, 1, 13", "5, 5, 5", "1, 1, 1"})
    void drawsEveryTreatmentOnceAndNoPanelTooFull(int a, int b, int c) {
        var treatments = factorial(a, b, c);
        var drawn = new ArrayList<Map<String, String>>();
        for (var panel : LinePanels.of(treatments, 6)) {
            assertTrue(panel.treatments().size() <= 6);
            drawn.addAll(panel.treatments());
        }
        assertEquals(treatments.size(), drawn.size());
        assertEquals(new HashSet<>(treatments), new HashSet<>(drawn));
    }
}
