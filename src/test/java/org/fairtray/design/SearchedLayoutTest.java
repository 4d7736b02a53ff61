package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SearchedLayoutTest {
    private static Randomisation.Drawn drawn(Trial trial, long seed) {
        return Assertions.assertTimeout(
                Duration.ofSeconds(20), () -> Randomisation.of(trial).draw(Generator.of(seed), share -> {}));
    }

    private static String letters(int number) {
        return IntStream.range(0, number).mapToObj(i -> "v" + i).collect(Collectors.joining(" "));
    }

    /** Cochran and Cox (1957), chapter 11, and Youden (1937), from memory; E = v(k - 1)/(k(v - 1)). */
    @ParameterizedTest
    @CsvSource({
        "stack 7 / position 3, 7, balanced incomplete blocks, 0.777778",
        "stack 10 / position 3, 6, balanced incomplete blocks, 0.8",
        "position 3 / stack 7 across position, 7, Youden square, 0.777778",
        "position 4 / stack 13 across position, 13, Youden square, 0.8125"
    })
    void laysTextbookPlans(String place, int treatments, String name, double efficiency) {
        var trial = Plans.plan(place, "mat@tray: " + letters(treatments));
        for (long seed = 1; seed <= 3; seed++) {
            var drawn = drawn(trial, seed);
            var structure = Structure.of(trial, drawn.layout().trays());
            assertEquals(efficiency, drawn.qualities().get(0).efficiency(), 1e-6);
            assertEquals(efficiency, drawn.qualities().get(0).best().orElseThrow(), 1e-6);
            assertEquals(name, DesignName.of(structure).name());
            assertEquals(List.of(), Faults.of(structure));
        }
    }

    @Test
    void givesTheSameForTheSameSeedAndAnotherForAnother() {
        var trial = Plans.plan("stack 7 / position 3", "mat@tray: " + letters(7));
        assertEquals(drawn(trial, 5).layout(), drawn(trial, 5).layout());
        assertTrue(!drawn(trial, 5).layout().equals(drawn(trial, 6).layout()));
    }

    /** All 48 layouts with each pair of three treatments in one block of two must come about equally often. */
    @Test
    void drawsEveryRenamingOfABalancedPlanEquallyOften() {
        var trial = Plans.plan("stack 3 / position 2", "mat@tray: a b c");
        Map<String, Integer> times = new HashMap<>();
        int draws = 4800;
        for (int seed = 0; seed < draws; seed++) {
            times.merge(mats(Randomisation.of(trial).draw(Generator.of(seed))), 1, Integer::sum);
        }
        assertEquals(48, times.size());
        double expected = draws / 48.0;
        double chi = times.values().stream()
                .mapToDouble(n -> (n - expected) * (n - expected) / expected)
                .sum();
        assertTrue(chi < 82.7, "chi-squared on 47 degrees of freedom, 0.1 % point 82.7: " + chi);
    }

    private static String mats(Layout layout) {
        return layout.trays().stream().map(t -> t.treatment().level("mat")).collect(Collectors.joining());
    }

    @Test
    void usesEveryTrayOfALargeRackWhereThePlanAsksForIt() {
        var trial = Plans.plan("stack 30 / position 20", OptionalInt.of(50), List.of(), "mat@tray: " + letters(12));
        var drawn = drawn(trial, 1);
        assertEquals(600, drawn.layout().trays().size());
        assertEquals(
                "extended blocks",
                DesignName.of(Structure.of(trial, drawn.layout().trays())).name());
        assertTrue(drawn.qualities().get(0).best().orElseThrow()
                        - drawn.qualities().get(0).efficiency()
                < 0.001);
    }

    @Test
    void leavesPlacesEmptyForFewerReplicates() {
        var trial = Plans.plan("stack 4 / position 5", OptionalInt.of(3), List.of(), "mat@tray: a b c d e f");
        var layout = drawn(trial, 1).layout();
        assertEquals(18, layout.trays().size());
        layout.trays().stream()
                .collect(Collectors.groupingBy(t -> t.treatment(), Collectors.counting()))
                .forEach((t, n) -> assertEquals(3, n));
        layout.trays().stream()
                .collect(Collectors.groupingBy(t -> t.stand().at().get(0), Collectors.counting()))
                .forEach((stack, n) -> assertTrue(n == 4 || n == 5));
    }

    @Test
    void keepsOutCombinationsThatAreNeverMade() {
        var never = new Treatment(Map.of("soak", "24", "mat", "hemp"));
        var trial = Plans.plan(
                "stack 5 / position 4",
                OptionalInt.empty(),
                List.of(never),
                "soak@tray: 0 8 24",
                "mat@tray: hemp jute");
        var drawn = drawn(trial, 1);
        assertEquals(20, drawn.layout().trays().size());
        assertTrue(drawn.layout().trays().stream().noneMatch(t -> t.treatment().includes(never)));
        assertEquals(List.of(), Faults.of(Structure.of(trial, drawn.layout().trays())));
    }

    @Test
    void searchesTheTraysOfASplitPlotWithinItsStacks() {
        var trial = Plans.plan("shelf 6 / stack 2 / position 2", "weight@stack: 0 5", "mat@tray: a b c");
        var drawn = drawn(trial, 1);
        var structure = Structure.of(trial, drawn.layout().trays());
        assertEquals(24, drawn.layout().trays().size());
        assertEquals("split-plot", DesignName.of(structure).name());
        assertEquals(List.of(), Faults.of(structure));
        structure.trays().stream()
                .collect(Collectors.groupingBy(t -> t.stand().at().subList(0, 2)))
                .values()
                .forEach(s -> assertEquals(
                        1,
                        s.stream()
                                .map(t -> t.treatment().level("weight"))
                                .distinct()
                                .count()));
    }

    /** With the heavy stacks never soaked long, soak is compared in the light ones alone. */
    @Test
    void searchesWhatDiffersFromStackToStack() {
        var never = new Treatment(Map.of("weight", "5", "soak", "24"));
        var trial = Plans.plan(
                "stack 8 / position 4",
                OptionalInt.empty(),
                List.of(never),
                "weight@stack: 0 5",
                "soak@tray: 0 24",
                "mat@tray: a b c");
        var drawn = drawn(trial, 1);
        assertEquals(32, drawn.layout().trays().size());
        assertTrue(drawn.layout().trays().stream().noneMatch(t -> t.treatment().includes(never)));
        assertTrue(drawn.qualities().get(0).efficiency() > 0.5);
    }

    /** Plackett and Burman (1946), Biometrika 33, 305-325, from memory: up to 11 factors in 12 runs are orthogonal. */
    @Test
    void keepsMainEffectsApartInTwelveTrays() {
        var names =
                IntStream.range(0, 5).mapToObj(i -> "f" + i + "@tray: low high").toArray(String[]::new);
        assertEquals(
                1, drawn(Plans.plan("spot 12", names), 1).qualities().get(0).efficiency(), 1e-9);
    }

    /** Resolution by the Box, Hunter and Hunter table, from memory: no main effect with another, III; nor with pairs, IV. */
    @ParameterizedTest
    @CsvSource({"4, 8, 4", "5, 8, 3", "7, 8, 3", "8, 16, 4"})
    void laysFractionsOfTextbookResolution(int factors, int runs, int resolution) {
        var names = IntStream.range(0, factors)
                .mapToObj(i -> "f" + i + "@tray: low high")
                .toArray(String[]::new);
        var drawn = drawn(Plans.plan("spot " + runs, names), 1);
        var quality = drawn.qualities().get(0);
        assertEquals(runs, drawn.layout().trays().size());
        assertEquals(1, quality.efficiency(), 1e-9);
        assertEquals(1, quality.best().orElseThrow(), 1e-9);
        assertEquals(
                resolution == 3,
                quality.confused().stream().anyMatch(s -> s.matches("f\\d can't be told apart from f\\d with .*")));
        assertTrue(quality.confused().stream().noneMatch(s -> s.matches("f\\d can't be told apart from f\\d[,.].*")));
    }

    @Test
    void saysWhatAFractionCanNotTellApart() {
        var trial = Plans.plan("spot 4", "soak@tray: 0 8", "mat@tray: a b", "cover@tray: 0 3");
        assertEquals(
                List.of(
                        "soak can't be told apart from mat with cover acting together.",
                        "mat can't be told apart from soak with cover acting together.",
                        "cover can't be told apart from soak with mat acting together."),
                drawn(trial, 1).qualities().get(0).confused());
    }
}
