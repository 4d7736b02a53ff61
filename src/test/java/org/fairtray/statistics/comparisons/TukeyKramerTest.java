package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;

class TukeyKramerTest {

    @Test
    void twoMeansAreStudentsT() {
        var pair = TukeyKramer.of(2, 8, 0.95);
        double error = TukeyKramer.standardError(3, 4, 6);
        CLOSED_FORM.assertClose(Math.sqrt(3.0 / 4 + 3.0 / 6), error);
        ITERATED.assertClose(Tail.tTwoSided(2.2 / error, 8), pair.p(-2.2, error));
        double half = error * Tail.tQuantile(0.975, 8);
        ITERATED.assertClose(2.2 - half, pair.interval(2.2, error).low());
        ITERATED.assertClose(2.2 + half, pair.interval(2.2, error).high());
    }

    /** At the end of an interval that just reaches 0 stands alpha. */
    @Test
    void intervalsAndTestsAgree() {
        var pairs = TukeyKramer.of(5, 12.5, 0.9);
        double error = TukeyKramer.standardError(2, 3, 4);
        double half = pairs.interval(0, error).high();
        ITERATED.assertClose(0.1, pairs.p(half, error));
    }

    @Test
    void refusesAnErrorThatIsNone() {
        var pairs = TukeyKramer.of(3, 10, 0.95);
        var refused = assertThrows(IllegalArgumentException.class, () -> pairs.p(1, 0));
        assertEquals("standard error 0.0: expected a number above 0", refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> pairs.interval(1, Double.NaN));
    }
}
