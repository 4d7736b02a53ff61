package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Small plans, all of whose layouts are counted one by one. */
class RestrictedDrawTest {
    private static final String TWO = "soak@tray: 0 8";

    static Stream<Arguments> plans() {
        return Stream.of(
                Arguments.of(4, Plans.restricted(Plans.plan("stack 2 / spot 4", TWO), "keep_apart treatment")),
                Arguments.of(
                        12, Plans.restricted(Plans.plan("stack 3 / spot 3", "mat@tray: a b c"), "even_over spot mat")),
                Arguments.of(
                        96, Plans.restricted(Plans.plan("stack 2 / spot 4", "mat@tray: a b c d"), "even_at_edges mat")),
                Arguments.of(6, Plans.restricted(Plans.plan("stack 2 / spot 4", TWO), "even_over spot soak")),
                Arguments.of(
                        2, Plans.restricted(Plans.plan("row 4 / column 4 across row", TWO), "keep_apart treatment")),
                Arguments.of(
                        32,
                        Plans.restricted(
                                Plans.plan("stack 4 / spot 2", "cover@stack: 0 2", "mat@tray: a b"),
                                "keep_apart cover")),
                Arguments.of(
                        16,
                        Plans.restricted(
                                Plans.plan("stack 2 / spot 4", TWO, "mat@tray: a b"),
                                "keep_apart soak",
                                "even_over spot treatment",
                                "even_over spot mat",
                                "even_at_edges mat")));
    }

    @ParameterizedTest
    @MethodSource("plans")
    void everyLayoutThatKeepsThemIsEquallyLikely(int number, Trial trial) {
        var allowed = allowed(trial);
        assertEquals(number, allowed.size());
        var random = Generator.of(11);
        var randomisation = Randomisation.of(trial);
        int draws = 20 * number;
        var counts = new HashMap<List<String>, Integer>();
        for (int i = 0; i < draws; i++) {
            counts.merge(told(trial, randomisation.draw(random).trays()), 1, Integer::sum);
        }
        assertEquals(allowed, counts.keySet());
        Uniformity.assertUniform(counts.values(), number, draws);
    }

    /** Six mats don't fill stacks of four: the layout is searched for, and its order drawn until restrictions hold. */
    @Test
    void searchedLayoutsKeepRestrictionsToo() {
        var trial = Plans.restricted(
                Plans.plan("stack 6 / spot 4", "mat@tray: a b c d e f"), "even_over spot mat", "even_at_edges mat");
        var seen = new HashSet<List<String>>();
        for (int seed = 1; seed <= 12; seed++) {
            var drawn = Randomisation.of(trial).draw(Generator.of(seed), share -> {});
            assertEquals(1, drawn.qualities().size());
            var trays = drawn.layout().trays();
            var edges = new HashMap<String, Integer>();
            var bySpot = new HashMap<String, Integer>();
            for (var tray : trays) {
                int spot = tray.stand().at().get(1);
                String mat = tray.treatment().level("mat");
                edges.merge(mat, spot == 1 || spot == 4 ? 1 : 0, Integer::sum);
                bySpot.merge(spot + mat, 1, Integer::sum);
            }
            assertEquals(Set.of(2), Set.copyOf(edges.values()), () -> "edges " + edges);
            assertEquals(24, bySpot.size(), () -> "every mat once at every spot: " + bySpot);
            seen.add(told(trial, trays));
        }
        assertEquals(12, seen.size());
    }

    @ParameterizedTest
    @MethodSource("plans")
    void aWalkIsAsFair(int number, Trial trial) {
        var random = Generator.of(12);
        int draws = 20 * number;
        var counts = new HashMap<List<String>, Integer>();
        for (int i = 0; i < draws; i++) {
            counts.merge(told(trial, walked(trial, random)), 1, Integer::sum);
        }
        assertEquals(allowed(trial), counts.keySet());
        Uniformity.assertUniform(counts.values(), number, draws);
    }

    /** The first layout drawn is hardly ever one that keeps them, so it is the walk that finds one. */
    private static List<Tray> walked(Trial trial, UniformRandomProvider random) {
        var plain = Randomisation.of(Plans.restricted(trial));
        return new RestrictedDraw(trial, plain.steps(), random)
                .draw(() -> plain.draw(random).trays(), 1, share -> {});
    }

    /** What stands where in walking order. */
    static List<String> told(Trial trial, List<Tray> trays) {
        var told = new String[trial.place().trays()];
        var stands = trial.place().stands();
        trays.forEach(t -> told[stands.indexOf(t.stand())] = t.treatment().describe());
        return Arrays.asList(told);
    }

    /** Every layout of full sets that keeps the restrictions, by trying all. */
    static Set<List<String>> allowed(Trial trial) {
        var found = new HashSet<List<String>>();
        fill(trial, new ArrayList<>(), found);
        return found;
    }

    private static void fill(Trial trial, List<Treatment> so, Set<List<String>> found) {
        if (so.size() == trial.place().trays()) {
            if (new Counted(trial, so).isAllowed()) {
                found.add(so.stream().map(Treatment::describe).toList());
            }
            return;
        }
        for (var treatment : trial.treatments()) {
            so.add(treatment);
            if (new Counted(trial, so).canGoOn()) {
                fill(trial, so, found);
            }
            so.remove(so.size() - 1);
        }
    }

    /** What the plans above ask, counted the slow way; places are two levels, all of them filled with full sets. */
    private record Counted(Trial trial, List<Treatment> so) {
        private int across() {
            return trial.place().levels().get(1).count();
        }

        private boolean crossed() {
            return trial.place().levels().get(1).across().isPresent();
        }

        private boolean splitPlot() {
            return trial.factors().get(0).appliedTo().equals("stack");
        }

        /** Whether no unit holds more of anything than its share. */
        boolean canGoOn() {
            int last = so.size() - 1;
            int row = last / across();
            var kinds = trial.treatments();
            int share = across() / (splitPlot() ? 2 : kinds.size());
            long inRow = so.subList(row * across(), so.size()).stream()
                    .filter(so.get(last)::equals)
                    .count();
            boolean wholeStack =
                    !splitPlot() || last % across() == 0 || level(last, "cover").equals(level(last - 1, "cover"));
            long inColumn = 0;
            for (int i = last; i >= 0; i -= across()) {
                inColumn += so.get(i).equals(so.get(last)) ? 1 : 0;
            }
            int rows = trial.place().levels().get(0).count();
            boolean columnKept = !crossed() || inColumn <= rows / kinds.size();
            return inRow <= share && wholeStack && columnKept;
        }

        private String level(int tray, String factor) {
            return trial.factorNames().contains(factor)
                    ? so.get(tray).level(factor)
                    : so.get(tray).describe();
        }

        boolean isAllowed() {
            boolean evenStacks = !splitPlot() || uneven(numbers(0, across(), "cover", false)) == 0;
            return evenStacks
                    && trial.restrictions().stream().allMatch(r -> switch (r.kind()) {
                        case APART -> keepsApart(r.of());
                        case EVEN -> keepsEven(r.of());
                        case EDGES -> uneven(edges(r.of())) < 2;
                    });
        }

        private boolean keepsApart(String of) {
            if (of.equals("cover")) {
                return level(0, of).equals(level(4, of))
                        && !level(0, of).equals(level(2, of))
                        && level(2, of).equals(level(6, of));
            }
            for (int i = 0; i < so.size(); i++) {
                boolean right = i % across() > 0 && level(i, of).equals(level(i - 1, of));
                boolean below = crossed() && i >= across() && level(i, of).equals(level(i - across(), of));
                if (right || below) {
                    return false;
                }
            }
            return true;
        }

        private boolean keepsEven(String of) {
            for (var level : so.stream()
                    .map(t -> of.equals("treatment") ? t.describe() : t.level(of))
                    .distinct()
                    .toList()) {
                var numbers = new HashMap<Integer, Integer>();
                for (int i = 0; i < so.size(); i++) {
                    numbers.merge(i % across(), level(i, of).equals(level) ? 1 : 0, Integer::sum);
                }
                if (uneven(numbers) > 1) {
                    return false;
                }
            }
            return true;
        }

        private Map<String, Integer> numbers(int from, int by, String of, boolean edge) {
            var numbers = new HashMap<String, Integer>();
            for (int i = from; i < so.size(); i += by) {
                boolean counted = !edge || i % across() == 0 || i % across() == across() - 1;
                numbers.merge(level(i, of), counted ? 1 : 0, Integer::sum);
            }
            return numbers;
        }

        private Map<String, Integer> edges(String of) {
            return numbers(0, 1, of, true);
        }

        private static int uneven(Map<?, Integer> numbers) {
            int most = numbers.values().stream().mapToInt(n -> n).max().orElseThrow();
            return most - numbers.values().stream().mapToInt(n -> n).min().orElseThrow();
        }
    }

    static List<Trial> larger() {
        return List.of(
                Plans.restricted(Plans.plan("stack 6 / spot 6", "mat@tray: a b c d e f"), "even_over spot treatment"),
                Plans.restricted(
                        Plans.plan("shelf 2 / stack 4 / spot 6", "mat@tray: a b c"),
                        "keep_apart mat",
                        "even_over spot mat",
                        "even_at_edges mat"),
                Plans.restricted(Plans.plan("row 6 / column 6 across row", "mat@tray: a b c"), "keep_apart treatment"),
                Plans.restricted(
                        Plans.plan("shelf 3 / stack 4 / spot 4", "cover@stack: 0 2", "mat@tray: a b"),
                        "keep_apart cover",
                        "even_at_edges cover",
                        "keep_apart treatment"),
                Plans.restricted(
                        Plans.plan("stack 6 / spot 4", "mat@tray: a b c d e f"),
                        "even_over spot mat",
                        "even_at_edges mat"),
                Plans.restricted(
                        Plans.plan("stack 3 / spot 7", "mat@tray: a b c"), "keep_apart mat", "even_over spot mat"));
    }

    @ParameterizedTest
    @MethodSource("larger")
    void eachIsKeptWithManySeeds(Trial trial) {
        var plain = Plans.restricted(trial);
        for (long seed = 1; seed <= 4; seed++) {
            var trays = Randomisation.of(trial).draw(Generator.of(seed)).trays();
            assertEquals(trial.restrictions(), Restrictions.kept(trial, trays), "seed " + seed);
            assertEquals(trays, Randomisation.of(trial).draw(Generator.of(seed)).trays(), "the same seed");
            assertEquals(
                    DesignName.of(Structure.of(
                                    plain,
                                    Randomisation.of(plain)
                                            .draw(Generator.of(seed))
                                            .trays()))
                            .name(),
                    DesignName.of(Structure.of(trial, trays)).name());
        }
    }

    @Test
    void aBrokenOneIsTold() {
        var trial = Plans.restricted(
                Plans.plan("stack 2 / spot 4", TWO), "keep_apart soak", "even_over spot soak", "even_at_edges soak");
        var trays = new ArrayList<Tray>();
        var stands = trial.place().stands();
        for (int i = 0; i < stands.size(); i++) {
            var level = i % 4 == 0 || i % 4 == 3 ? "0" : "8";
            trays.add(new Tray("T" + i, stands.get(i), Map.of(), new Treatment(Map.of("soak", level))));
        }
        var told = trial.restrictions().stream()
                .map(r -> Restrictions.amiss(trial, trays, r).orElse("kept"))
                .toList();
        assertEquals(
                List.of(
                        "2 pairs lie side by side, such as two of soak 8",
                        "soak 0 comes twice at number 1 and never at another",
                        "soak 0 comes 4 times at the edges and another never"),
                told);
    }

    @Test
    void moreOfOneThanCanLieApartIsRefused() {
        var never = List.of(new Treatment(Map.of("soak", "8", "mat", "b")));
        var trial = Plans.restricted(
                Plans.plan("stack 2 / spot 6", OptionalInt.empty(), never, TWO, "mat@tray: a b"), "keep_apart soak");
        assertEquals(
                List.of(
                        "The restriction {keep_apart: soak} can't be kept: soak 0 goes to 4 of the 6 trays of each stack,"
                                + " and at most 3 can lie apart there. Leave the restriction out, or give soak more levels."),
                refused(trial));
    }

    @Test
    void restrictionsThatNoLayoutKeepsEndTheSearch() {
        var trial = Plans.restricted(
                Plans.plan("stack 3 / spot 4", TWO, "mat@tray: a b"), "keep_apart soak", "keep_apart mat");
        var reasons = refused(trial);
        assertEquals(
                "No layout was found that keeps {keep_apart: soak}, {keep_apart: mat}. 240,000 exchanges were tried.",
                reasons.get(0));
        assertTrue(reasons.get(1).startsWith("In the last one tried, against {keep_apart: "), reasons.get(1));
        assertEquals(
                "Leave out a restriction, or change how many levels or places there are.",
                reasons.get(reasons.size() - 1));
    }

    private static List<String> refused(Trial trial) {
        return assertThrows(
                        DoesNotFitException.class, () -> Randomisation.of(trial).draw(Generator.of(1)))
                .reasons();
    }
}
