package org.fairtray.statistics.residuals;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;

class ReplicateRangeTest {

    /** Two tosses by two people: 0, 1, 2 heads with 1/4, 1/2, 1/4; they differ by 2 in 2/16, by 1 or more in 10/16. */
    @Test
    void smallCasesComeOutByHand() {
        var range = ReplicateRange.of(2, 2, 0.5);
        assertEquals(1, range.atLeast(0));
        Tolerance.CLOSED_FORM.assertClose(10.0 / 16, range.atLeast(1));
        Tolerance.CLOSED_FORM.assertClose(2.0 / 16, range.atLeast(2));
        Tolerance.CLOSED_FORM.assertClose(0, range.atLeast(3));
    }

    /**
     * R 4.2.2: F <- pbinom(-1:100, 100, .3); x <- 0:100; d <- function(R) 1 - sum((F[pmin(x+R,100)+2] - F[x+1])^4 -
     * (F[pmin(x+R,100)+2] - F[x+2])^4); d(17); d(18).
     */
    @Test
    void fourReplicatesOfAHundredAreThoseOfR() {
        var range = ReplicateRange.of(4, 100, 0.3);
        Tolerance.SUMMED.assertClose(0.03432284126317608, range.atLeast(18));
        Tolerance.SUMMED.assertClose(0.02188735936641273, range.atLeast(19));
    }

    @Test
    void aRateAtTheEndLeavesNoRange() {
        assertEquals(0, ReplicateRange.of(3, 50, 0).atLeast(1));
        assertEquals(0, ReplicateRange.of(3, 50, 1).tolerance(0.025));
    }

    @Test
    void oneReplicateHasNoRange() {
        assertThrows(IllegalArgumentException.class, () -> ReplicateRange.of(1, 50, 0.5));
    }
}
