package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RandomisationTest {

    private static Layout draw(Trial trial, long seed) {
        return Randomisation.of(trial).draw(Generator.of(seed));
    }

    private static Map<Treatment, Long> treatments(Layout layout) {
        return layout.trays().stream().collect(Collectors.groupingBy(Tray::treatment, Collectors.counting()));
    }

    /** How many layouts the plan allows, counted by hand as the product of the free choices. */
    @ParameterizedTest(name = "{0}; {1} {2}: {3} layouts")
    @CsvSource({
        // completely randomised: 6!/(3! 3!)
        "spot 6, soak@tray: 0 8, , 20",
        // one place stays empty: 5!/(2! 2! 1!)
        "spot 5, soak@tray: 0 8, , 30",
        // randomised blocks: 3!^2
        "shelf 2 / spot 3, mat@tray: a b c, , 36",
        // two sets in each block: (4!/(2! 2!))^2
        "shelf 2 / spot 4, soak@tray: 0 8, , 36",
        // split plot: 2 stacks by lot in each of 2 shelves, 2 trays in each of 4 stacks: 2^2 2^4
        "shelf 2 / stack 2 / spot 2, cover@stack: 0 3, soak@tray: 0 8, 64",
        // strip plot: rows and columns of each of 2 benches: (2! 3!)^2
        "bench 2 / row 2 / column 3 across row, light@row: dim bright, water@column: a b c, 144",
        // Latin square
        "row 3 / column 3 across row, mat@tray: a b c, , 12",
        // two Latin squares
        "shelf 2 / row 2 / column 2 across row, mat@tray: a b, , 4",
        // a factor on whole stacks only: 4!/(2! 2!)
        "stack 4 / spot 3, cover@stack: 0 3, , 6",
        // a factorial in blocks: 4!
        "shelf 1 / spot 4, soak@tray: 0 8, mat@tray: a b, 24",
    })
    void everyLayoutThePlanAllowsComesEquallyOften(String place, String one, String other, int layouts) {
        var trial = other == null ? Plans.plan(place, one) : Plans.plan(place, one, other);
        var randomisation = Randomisation.of(trial);
        var random = Generator.of(layouts);
        int draws = 60 * layouts;
        Map<List<Tray>, Integer> seen = new HashMap<>();
        for (int i = 0; i < draws; i++) {
            seen.merge(randomisation.draw(random).trays(), 1, Integer::sum);
        }
        Uniformity.assertUniform(seen.values(), layouts, draws);
    }

    /** On a plan too large to count out, every treatment comes to every stand equally often, and every pair to a pair. */
    @Test
    void onALargePlanEveryTreatmentComesEquallyOftenToEveryStand() {
        var trial = Plans.plan("shelf 2 / stack 4 / layer 6", "cover@stack: 0 3", "soak@tray: 0 8", "mat@tray: a b c");
        var randomisation = Randomisation.of(trial);
        var random = Generator.of(7);
        int draws = 6000;
        Map<Treatment, Integer> atFirst = new HashMap<>();
        Map<List<Treatment>, Integer> atTwo = new HashMap<>();
        for (int i = 0; i < draws; i++) {
            var trays = randomisation.draw(random).trays();
            atFirst.merge(trays.get(17).treatment(), 1, Integer::sum);
            atTwo.merge(List.of(trays.get(0).treatment(), trays.get(6).treatment()), 1, Integer::sum);
        }
        Uniformity.assertUniform(atFirst.values(), 12, draws);
        // Two trays of neighbouring stacks of a shelf: equal covers 1 time in 3, so of the 144 pairs those with equal
        // covers are half as likely as those with different ones.
        assertEquals(144, atTwo.size());
        long equal = atTwo.entrySet().stream()
                .filter(e -> e.getKey()
                        .get(0)
                        .level("cover")
                        .equals(e.getKey().get(1).level("cover")))
                .mapToLong(Map.Entry::getValue)
                .sum();
        assertEquals(1.0 / 3, (double) equal / draws, 4 * Math.sqrt(2.0 / 9 / draws));
    }

    @ParameterizedTest(name = "seed {0}")
    @CsvSource({"1", "2", "3", "-9223372036854775808", "9223372036854775807"})
    void keepsToThePlan(long seed) {
        var trial = Plans.plan("shelf 2 / stack 4 / layer 6", "cover@stack: 0 3", "soak@tray: 0 8", "mat@tray: a b c");
        var layout = draw(trial, seed);
        assertEquals(48, layout.trays().size());
        assertEquals(12, treatments(layout).size());
        assertTrue(treatments(layout).values().stream().allMatch(n -> n == 4));
        var byStack = layout.trays().stream()
                .collect(Collectors.groupingBy(t -> trial.place().unit("stack", t.stand())));
        assertEquals(8, byStack.size());
        byStack.values().forEach(stack -> {
            assertEquals(
                    1,
                    stack.stream()
                            .map(t -> t.treatment().level("cover"))
                            .distinct()
                            .count());
            assertEquals(6, stack.stream().map(Tray::treatment).distinct().count());
        });
        var coversByShelf = layout.trays().stream()
                .collect(Collectors.groupingBy(
                        t -> t.stand().at().get(0) + t.treatment().level("cover"), Collectors.counting()));
        assertTrue(coversByShelf.values().stream().allMatch(n -> n == 12), coversByShelf.toString());
    }

    @Test
    void aSplitSplitPlotHasThreeSteps() {
        var trial = Plans.plan(
                "shelf 2 / stack 2 / tier 2 / spot 2", "cover@stack: 0 3", "light@tier: dim bright", "soak@tray: 0 8");
        assertEquals(
                List.of("stack", "tier", "tray"),
                Randomisation.of(trial).steps().stream().map(Step::level).toList());
        assertEquals(2, treatments(draw(trial, 1)).get(trial.treatments().get(0)));
    }

    @Test
    void codesTellThePlaceAndNothingElse() {
        var trial = Plans.plan("shelf 3 / spot 4", "soak@tray: 0 8");
        var one = draw(trial, 1);
        var other = draw(trial, 2);
        assertEquals(
                one.trays().stream().map(t -> t.code() + t.stand()).toList(),
                other.trays().stream().map(t -> t.code() + t.stand()).toList());
        assertEquals("T01", one.trays().get(0).code());
        assertEquals(12, new HashSet<>(one.trays().stream().map(Tray::code).toList()).size());
        assertTrue(!one.trays().equals(other.trays()));
    }

    @Test
    void neverMakesWhatIsNeverMade() {
        var never = List.of(new Treatment(Map.of("soak", "8", "mat", "c")));
        var trial = Plans.plan("shelf 2 / spot 6", OptionalInt.empty(), never, "soak@tray: 0 8", "mat@tray: a b c");
        var layout = draw(trial, 3);
        assertEquals(10, layout.trays().size());
        assertEquals(5, treatments(layout).size());
        assertTrue(layout.trays().stream().allMatch(t -> trial.made(t.treatment())));
    }

    @Test
    void aNestedFactorKeepsClearOfWhatItsStackForbids() {
        var never = List.of(new Treatment(Map.of("cover", "3", "mat", "c")));
        var trial = Plans.plan("stack 4 / spot 3", OptionalInt.empty(), never, "cover@stack: 0 3", "mat@tray: a b c");
        var layout = draw(trial, 3);
        assertEquals(10, layout.trays().size());
        assertTrue(layout.trays().stream().allMatch(t -> trial.made(t.treatment())));
    }

    @ParameterizedTest(name = "{0} replicates of 2 x 3 on 4 shelves of 12: {1} trays on {2} shelves")
    @CsvSource({"8, 48, 4", "4, 24, 4", "6, 36, 3", "3, 18, 3", "1, 6, 1"})
    void asManyReplicatesAsThePlanAsksFor(int replicates, int trays, int shelves) {
        var trial = Plans.plan(
                "shelf 4 / spot 12", OptionalInt.of(replicates), List.of(), "soak@tray: 0 8", "mat@tray: a b c");
        var layout = draw(trial, 1);
        assertEquals(trays, layout.trays().size());
        assertEquals(
                shelves,
                layout.trays().stream()
                        .map(t -> t.stand().at().get(0))
                        .distinct()
                        .count());
        assertTrue(treatments(layout).values().stream().allMatch(n -> n == replicates));
    }

    @ParameterizedTest(name = "{0}; {1} {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "spot 2 | mat@tray: a b c | | The place holds 2 trays, but mat makes 3 combinations, and a full set needs"
                        + " one tray for each. It fits with 3, 6 or more there, or with at most 2 combinations.",
                "stack 2 / height 3 across stack | mat@tray: a b c d e f | | Each stack holds 3 trays and each height 2,"
                        + " but mat makes 6 combinations, and each must come equally often in every stack and every height."
                        + " It fits where the numbers of stack and of height are both multiples of 6 (6, 12,"
                        + " 18 ...); or leave out 'across', and height is not balanced.",
            })
    void refusesWhatThePlaceCanNotHoldWithTheNumbersThatFit(String place, String one, String other, String reason) {
        var trial = other == null ? Plans.plan(place, one) : Plans.plan(place, one, other);
        var failure = assertThrows(DoesNotFitException.class, () -> Randomisation.of(trial));
        assertEquals(List.of(reason), failure.reasons());
    }

    @Test
    void refusesGapsAndUnevenRowsTogether() {
        var trial = Plans.plan(
                "shelf 2 / stack 3 / position 4 across stack", "cover@stack: 0 3", "soak@tray: 0 8", "mat@tray: a b c");
        var failure = assertThrows(DoesNotFitException.class, () -> Randomisation.of(trial));
        assertEquals(
                List.of(
                        "Each shelf holds 3 × stack, and cover makes 2 combinations: some would stay empty, and then soak ×"
                                + " mat can't be balanced over stack and position. It fits with 2 or 4 × stack there.",
                        "Each stack holds 4 trays and each position 3, but soak × mat makes 6 combinations, and each must"
                                + " come equally often in every stack and every position. It fits where the numbers of stack"
                                + " and of position are both multiples of 6 (6, 12, 18 ...); or leave out 'across', and"
                                + " position is not balanced."),
                failure.reasons());
    }

    @Test
    void refusesReplicatesThatDoNotFitAndNamesThoseThatDo() {
        var trial = Plans.plan("shelf 2 / spot 4", OptionalInt.of(5), List.of(), "soak@tray: 0 8");
        var failure = assertThrows(DoesNotFitException.class, () -> Randomisation.of(trial));
        assertEquals(
                List.of(
                        "The plan asks for 5 replicates, that is trays for each treatment. In this place each treatment can"
                                + " have 1, 2, 4."),
                failure.reasons());
    }

    @Test
    void refusesToKeepOutACombinationOfCrossedStrips() {
        var never = List.of(new Treatment(Map.of("light", "dim")).with(new Treatment(Map.of("water", "a"))));
        var trial = Plans.plan(
                "bench 2 / row 2 / column 2 across row",
                OptionalInt.empty(),
                never,
                "light@row: dim bright",
                "water@column: a b");
        var failure = assertThrows(DoesNotFitException.class, () -> Randomisation.of(trial));
        assertEquals(
                List.of("The combination light dim, water a can't be kept out: it is applied to row and column, which"
                        + " cross, so every combination comes about."),
                failure.reasons());
    }
}
