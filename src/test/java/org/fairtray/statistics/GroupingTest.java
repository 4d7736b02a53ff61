package org.fairtray.statistics;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class GroupingTest {
    private static final Grouping STACKS = Grouping.by(List.of("b", "a", "b", "c", "a", "b"));
    private static final Grouping SHELVES = Grouping.by(List.of(1, 1, 1, 2, 1, 1));
    private static final double[] VALUES = {1, 2, 3, 4, 5, 8};

    @Test
    void numbersGroupsInTheOrderOfFirstSight() {
        assertArrayEquals(new int[] {0, 1, 0, 2, 1, 0}, STACKS.of());
        assertEquals(3, STACKS.groups());
        assertEquals(6, STACKS.size());
        assertArrayEquals(new int[] {3, 2, 1}, STACKS.sizes());
        assertEquals("3 groups of 6", STACKS.toString());
    }

    @Test
    void addsUpAndAveragesByGroup() {
        assertArrayEquals(new double[] {12, 7, 4}, STACKS.sums(VALUES));
        assertArrayEquals(new double[] {4, 3.5, 4, 4, 3.5, 4}, STACKS.average(VALUES));
        assertArrayEquals(new double[] {1, 2, 3, 4, 5, 8}, VALUES);
    }

    @Test
    void indicatorsHoldEachThingOnce() {
        var indicators = STACKS.indicators();
        assertArrayEquals(new double[] {1, 0, 1, 0, 0, 1}, indicators.get(0));
        assertArrayEquals(new double[] {0, 1, 0, 0, 1, 0}, indicators.get(1));
        assertArrayEquals(new double[] {0, 0, 0, 1, 0, 0}, indicators.get(2));
    }

    @Test
    void finerMeansWithinWholeGroups() {
        assertTrue(STACKS.finerThan(SHELVES));
        assertFalse(SHELVES.finerThan(STACKS));
        assertTrue(STACKS.finerThan(STACKS));
        assertTrue(SHELVES.finerThan(Grouping.whole(6)));
        assertFalse(Grouping.by(List.of(1, 2, 2, 1, 2, 1)).finerThan(STACKS));
    }

    @Test
    void whatItGivesOutIsACopy() {
        STACKS.of()[0] = 9;
        assertArrayEquals(new int[] {0, 1, 0, 2, 1, 0}, STACKS.of());
    }
}
