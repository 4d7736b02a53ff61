package org.fairtray.sizing.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Count;
import org.junit.jupiter.api.Test;

/** The same number meets the same luck, whatever is compared. */
class NumberedTrialsTest {
    private static final String EXPECTED =
            "control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {stack: 0.4}";

    private static Simulations stacks(int stacks, String expect) {
        return Simulations.of(
                "{name: soak, levels: [0, 8]}",
                "{name: stack, count: " + stacks + "}, {name: spot, count: 4}",
                50,
                expect);
    }

    private static List<Count> counts(int stacks, String expect, long number, double rate) {
        var structure = stacks(stacks, expect).structure();
        var rates = new double[structure.trays().size()];
        Arrays.fill(rates, rate);
        return new NumberedTrials(structure, structure.trial().expectations(), 1).draw(number, rates);
    }

    @Test
    void aNumberGivesTheSameCountsAgain() {
        assertEquals(counts(4, EXPECTED, 17, 0.4), counts(4, EXPECTED, 17, 0.4));
        assertNotEquals(counts(4, EXPECTED, 17, 0.4), counts(4, EXPECTED, 18, 0.4));
    }

    @Test
    void whatWasDrawnBeforeChangesNothing() {
        var structure = stacks(4, EXPECTED).structure();
        var rates = new double[16];
        Arrays.fill(rates, 0.4);
        var trials = new NumberedTrials(structure, structure.trial().expectations(), 1);
        trials.draw(3, rates);
        assertEquals(counts(4, EXPECTED, 17, 0.4), trials.draw(17, rates));
    }

    @Test
    void moreStacksLeaveTheFirstAsTheyWere() {
        assertEquals(counts(4, EXPECTED, 5, 0.4), counts(6, EXPECTED, 5, 0.4).subList(0, 16));
    }

    @Test
    void aHigherRateTakesNoSeedAway() {
        for (int number = 0; number < 50; number++) {
            var low = counts(4, EXPECTED, number, 0.4);
            var high = counts(4, EXPECTED, number, 0.45);
            for (int i = 0; i < 16; i++) {
                assertTrue(low.get(i).successes() <= high.get(i).successes());
            }
        }
    }

    /** Trays of a stack that is lucky where stacks differ are so by just as much where they differ less. */
    @Test
    void anotherGuessAtThePlacesMovesTheSameWay() {
        String alike = EXPECTED.replace("{stack: 0.4}", "{stack: 0}");
        String less = EXPECTED.replace("{stack: 0.4}", "{stack: 0.2}");
        for (int number = 0; number < 50; number++) {
            var none = counts(4, alike, number, 0.4);
            var some = counts(4, less, number, 0.4);
            var much = counts(4, EXPECTED, number, 0.4);
            for (int i = 0; i < 16; i++) {
                long first = some.get(i).successes() - none.get(i).successes();
                long second = much.get(i).successes() - some.get(i).successes();
                assertTrue(first * second >= 0, number + ": " + none + some + much);
            }
        }
    }
}
