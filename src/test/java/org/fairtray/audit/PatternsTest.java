package org.fairtray.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Structure;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Regular layouts are found, and of those that chance drew no more are than was said. */
class PatternsTest {
    private static final String MAT = "{name: mat, levels: [a, b, c, d]}";
    private static final String SOAK = "{name: soak, levels: [0, 8]}";

    private static Trial trial(String factors, String place) {
        var plan = "{format: 1, trial: A, factors: [" + factors + "], place: [" + place
                + "], counting: {days: [1]}, outcomes: [{name: height_mm, kind: measure, day: 1}]}";
        return TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
    }

    /** 300 layouts each: of a binomial with 1/200 more than 8 come about once in 10,000. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                SOAK + "; {name: shelf, count: 4}, {name: spot, count: 6}",
                MAT + "; {name: spot, count: 16}",
                MAT + "; {name: stack, count: 4}, {name: height, count: 4, across: stack}",
                "{name: cover, levels: [0, 3], applied_to: stack}, " + SOAK
                        + "; {name: shelf, count: 2}, {name: stack, count: 4}, {name: layer, count: 4}",
            })
    void chanceIsSeldomCalledAPattern(String factors, String place) {
        var trial = trial(factors, place);
        var randomisation = Randomisation.of(trial);
        long found = IntStream.range(0, 300)
                .filter(seed -> {
                    var trays = randomisation.draw(Generator.of(10_000 + seed)).trays();
                    return !patterns(trial, trays, true).isEmpty();
                })
                .count();
        assertTrue(found <= 8, found + " of 300");
    }

    private static List<String> patterns(Trial trial, List<Tray> trays, boolean sealed) {
        return Patterns.of(Structure.of(trial, trays), sealed).faults(trays).stream()
                .map(f -> f.sentence())
                .toList();
    }

    /** A layout of one factor written as its levels, a line for each shelf. */
    private static List<String> patterns(String factor, String lines, boolean sealed) {
        var shelves = lines.split("/", -1);
        var trial = trial(
                factor,
                "{name: shelf, count: " + shelves.length + "}, {name: spot, count: " + shelves[0].length() + "}");
        var layout = new StringBuilder("tray,shelf,spot," + trial.factorNames().get(0) + "\n");
        int tray = 0;
        for (int shelf = 0; shelf < shelves.length; shelf++) {
            for (int spot = 0; spot < shelves[shelf].length(); spot++) {
                layout.append("T")
                        .append(++tray)
                        .append(",")
                        .append(shelf + 1)
                        .append(",")
                        .append(spot + 1);
                layout.append(",").append(shelves[shelf].charAt(spot)).append("\n");
            }
        }
        var plan = "{format: 1, trial: A, factors: [" + factor + "], place: [{name: shelf, count: " + shelves.length
                + "}, {name: spot, count: " + shelves[0].length()
                + "}], counting: {days: [1]}, outcomes: [{name: height_mm, kind: measure, day: 1}]}";
        var files = TrialFiles.of(Map.of(
                "plan.yaml", plan.getBytes(StandardCharsets.UTF_8),
                "layout.csv", layout.toString().getBytes(StandardCharsets.UTF_8)));
        return patterns(files.trial(), files.layout().orElseThrow().trays(), sealed);
    }

    private static void assertPattern(String start, List<String> found) {
        assertEquals(1, found.size(), found::toString);
        assertTrue(found.get(0).startsWith(start), found::toString);
    }

    @Test
    void strictTurnsAlongShelves() {
        assertPattern("The levels of soak ", patterns(SOAK, "080808/080808/080808/080808", true));
    }

    @Test
    void turnsThatBeginAnewOnEachShelf() {
        assertPattern("The levels of soak take turns", patterns(SOAK, "080808/808080/080808/808080", true));
    }

    @Test
    void oneKindAtOneEndOfEveryShelf() {
        assertEquals(1, patterns(SOAK, "000888/000888/000888/000888", true).size());
        assertPattern("Like levels of soak stand side by side", patterns(SOAK, "000888/888000/888000/000888", true));
    }

    @Test
    void nearlyAllOfOneKindAtTheWarmEnd() {
        assertPattern(
                "Some levels of soak stand towards one end",
                patterns(SOAK, "00080888/00008888/08000888/00800888", true));
    }

    @Test
    void theSameOrderOnEveryShelf() {
        assertPattern("The levels of mat stand in the same order", patterns(MAT, "cadb/cadb/cadb/cadb/cadb", true));
    }

    @Test
    void diagonals() {
        var mats = "{name: mat, levels: [a, b, c, d, e]}";
        assertPattern("The levels of mat lie in diagonals", patterns(mats, "abcde/bcdea/cdeab/deabc/eabcd", true));
        assertPattern("The levels of mat lie in diagonals", patterns(mats, "abcde/eabcd/deabc/cdeab/bcdea", true));
    }

    @ParameterizedTest
    @ValueSource(strings = {"080808", "000888"})
    void aFewTraysAreCalledAPatternOnlyWhereNothingShowsThatChanceDrewThem(String levels) {
        assertEquals(List.of(), patterns(SOAK, levels, true));
        assertEquals(1, patterns(SOAK, levels, false).size());
    }

    @Test
    void chanceIsCountedAndSaid() {
        assertEquals(
                List.of(
                        "The levels of soak follow each other always in the same turn along spot. Chance makes a layout so regular about once in 20."),
                patterns(SOAK, "08080808", false).stream()
                        .map(s -> s.replace(" of each shelf", ""))
                        .toList());
    }

    @Test
    void fourTraysAreNeverAPattern() {
        assertEquals(List.of(), patterns(SOAK, "0808", false));
        assertEquals(List.of(), patterns(SOAK, "08/80", false));
    }
}
