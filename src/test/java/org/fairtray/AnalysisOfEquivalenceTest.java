package org.fairtray;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.fairtray.findings.AsGoodAs;
import org.junit.jupiter.api.Test;

/** Whether coir is as good as hemp, 15 points being what matters. */
class AnalysisOfEquivalenceTest {
    private static AsGoodAs coir(double... through) {
        var trials = Trials.of(
                        place("spot " + through.length),
                        List.of(factor("mat", "tray", "hemp", "coir")),
                        THROUGH,
                        HEIGHT)
                .laid(at -> List.of(at.get(0) <= through.length / 2 ? "hemp" : "coir"));
        var found = trials.read(t -> Map.of(
                        "through",
                        through[t.stand().at().get(0) - 1],
                        "height_mm",
                        through[t.stand().at().get(0) - 1]))
                .findings();
        assertEquals(List.of(), found.outcomes().get(1).asGoodAs());
        return found.outcomes().get(0).asGoodAs().get(0);
    }

    /**
     * R 4.2.2: glm(cbind(k, n - k) ~ g, family = quasibinomial), delta method on rates, dispersion held at 1 (it came out
     * below), pt on 6 degrees of freedom.
     */
    @Test
    void bothWaysRuledOut() {
        var coir = coir(21, 23, 25, 22, 20, 24, 22, 26);
        ITERATED.assertClose(0.0104071771103533, coir.pNotWorse());
        ITERATED.assertClose(0.0134801919120002, coir.pNotBetter());
        ITERATED.assertClose(-0.0918061719102248, coir.low());
        ITERATED.assertClose(0.1018061719102248, coir.high());
        assertTrue(coir.notWorse() && coir.same());
        assertEquals(
                "mat coir is as good as mat hemp, and no better: a difference of 15 points or more, either way, is ruled out"
                        + " (p = 0.013).",
                coir.sentence());
    }

    @Test
    void betterIsAsGood() {
        var coir = coir(21, 23, 25, 22, 40, 42, 41, 43);
        assertTrue(coir.notWorse());
        assertFalse(coir.same());
        assertEquals(
                "mat coir is as good as mat hemp: worse by 15 points or more is ruled out (p < 0.001).",
                coir.sentence());
    }

    @Test
    void worseAndUncertainAreNot() {
        var worse = coir(40, 42, 41, 43, 21, 23, 25, 22);
        assertFalse(worse.notWorse());
        assertEquals(
                "mat coir can't be called as good as mat hemp: worse by 15 points or more is what was found.",
                worse.sentence());
        var open = coir(20, 24, 22, 26, 12, 30, 15, 27);
        assertFalse(open.notWorse());
        assertTrue(
                open.sentence()
                        .startsWith(
                                "mat coir can't be called as good as mat hemp: worse by 15 points or more is not ruled out (p = "));
    }

    @Test
    void withoutRepeatsItCannotBeTold() {
        var coir = coir(20, 22);
        assertNull(coir.pNotWorse());
        assertFalse(coir.notWorse() || coir.same());
        assertEquals(
                "Whether mat coir is as good as mat hemp can't be told: nothing is left to hold a difference against.",
                coir.sentence());
    }
}
