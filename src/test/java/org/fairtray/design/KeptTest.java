package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

/** The re-randomisation of a restricted layout goes over the layouts that could have been drawn, and no others. */
class KeptTest {
    private static final Trial STACKS =
            Plans.restricted(Plans.plan("stack 2 / spot 6", "mat@tray: a b c"), "keep_apart treatment");
    private static final Trial ROWS =
            Plans.restricted(Plans.plan("row 4 / column 4 across row", "mat@tray: a b"), "even_at_edges mat");

    private static Arrangements arrangements(Trial trial, Structure structure) {
        return Rerandomisation.of(structure, Term.of(trial).get(0));
    }

    private static List<String> exchanged(Structure structure, int[] sources) {
        var told = new String[sources.length];
        for (int u = 0; u < sources.length; u++) {
            told[sources[u]] = structure.trays().get(u).treatment().describe();
        }
        return Arrays.asList(told);
    }

    @Test
    void allThatAreTriedAreAllThatCouldBeDrawn() {
        var structure = Structure.of(
                STACKS, Randomisation.of(STACKS).draw(Generator.of(3)).trays());
        var kept = arrangements(STACKS, structure);
        assertInstanceOf(Kept.class, kept);
        Set<List<String>> tried = new HashSet<>();
        kept.all(sources -> tried.add(exchanged(structure, sources)));
        assertEquals(900, kept.number());
        assertEquals(RestrictedDrawTest.allowed(STACKS), tried);
        assertEquals(
                "the levels of mat were exchanged among single trays in the same stack, as far as the plan's restrictions"
                        + " allow",
                kept.description());
    }

    @Test
    void thoseThatAreDrawnKeepThemToo() {
        var structure = Structure.of(
                STACKS, Randomisation.of(STACKS).draw(Generator.of(3)).trays());
        var allowed = RestrictedDrawTest.allowed(STACKS);
        var counts = new HashMap<List<String>, Integer>();
        arrangements(STACKS, structure)
                .draw(9000, Generator.of(4), s -> counts.merge(exchanged(structure, s), 1, Integer::sum));
        assertTrue(allowed.containsAll(counts.keySet()));
        Uniformity.assertUniform(counts.values(), 900, 9000);
    }

    @Test
    void aWalkMeetsThemAllAndCountsEachAsOften() {
        var trial =
                Plans.restricted(Plans.plan("spot 12", "mat@tray: a b c"), "keep_apart treatment", "even_at_edges mat");
        var structure = Structure.of(
                trial, Randomisation.of(trial).draw(Generator.of(3)).trays());
        var ends = new HashMap<String, Integer>();
        int draws = 6000;
        arrangements(trial, structure).draw(draws, Generator.of(4), s -> {
            var told = exchanged(structure, s);
            for (int i = 1; i < told.size(); i++) {
                assertTrue(!told.get(i).equals(told.get(i - 1)), told.toString());
            }
            ends.merge(told.get(0) + told.get(11), 1, Integer::sum);
        });
        assertEquals(6, ends.size(), "pairs of different mats at the two edges");
        ends.values().forEach(n -> assertEquals(draws / 6.0, n, draws / 6.0 / 4, ends.toString()));
    }

    @Test
    void rowsAndColumnsAreDrawnAnewOnlyAsTheyMayBe() {
        var structure =
                Structure.of(ROWS, Randomisation.of(ROWS).draw(Generator.of(5)).trays());
        var kept = assertInstanceOf(Kept.class, arrangements(ROWS, structure));
        assertInstanceOf(Redraw.class, kept.base());
        Set<List<String>> tried = new HashSet<>();
        kept.all(levels -> tried.add(
                Arrays.stream(levels).mapToObj(l -> "mat " + "ab".charAt(l)).toList()));
        Set<List<String>> drawn = new HashSet<>();
        for (long seed = 1; seed <= 600; seed++) {
            drawn.add(RestrictedDrawTest.told(
                    ROWS, Randomisation.of(ROWS).draw(Generator.of(seed)).trays()));
        }
        assertEquals(tried, drawn);
        assertEquals(tried.size(), kept.number());
    }

    @Test
    void aLayoutThatBreaksThemIsTestedAsWithoutThem() {
        var plain = Plans.restricted(STACKS);
        long broken = 0;
        for (long seed = 1; seed <= 3; seed++) {
            var trays = Randomisation.of(plain).draw(Generator.of(seed)).trays();
            if (Restrictions.kept(STACKS, trays).isEmpty()) {
                broken++;
                assertInstanceOf(Exchange.class, arrangements(STACKS, Structure.of(STACKS, trays)));
            }
        }
        assertTrue(broken > 0);
    }
}
