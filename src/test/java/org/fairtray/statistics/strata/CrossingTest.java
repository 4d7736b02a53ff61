package org.fairtray.statistics.strata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.fairtray.statistics.Grid;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Vectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CrossingTest {
    private static final Grid SQUARE = Grid.of(4, 4);
    private static final Grid STRIPS = Grid.of(3, 4, 5);

    @Test
    void everyRowMeetsEveryColumnAsOften() {
        assertTrue(Crossing.isEven(SQUARE.by(0), SQUARE.by(1), List.of()));
        var twice = Grid.of(3, 2, 2);
        assertTrue(Crossing.isEven(twice.by(0), twice.by(1), List.of()));
    }

    @Test
    void oneMissingCellIsUneven() {
        for (long seed = 0; seed < 5; seed++) {
            var missing = SQUARE.without(1, seed);
            assertFalse(Crossing.isEven(missing.by(0), missing.by(1), List.of()));
        }
    }

    @Test
    void proportionalNumbersAreEven() {
        var rows = Grouping.by(List.of(1, 1, 1, 2, 2, 2, 2, 2, 2));
        var columns = Grouping.by(List.of(1, 2, 2, 1, 1, 2, 2, 2, 2));
        assertTrue(Crossing.isEven(rows, columns, List.of()));
    }

    @Test
    void withinBlocksItNeedsTheBlocks() {
        assertTrue(Crossing.isEven(STRIPS.by(0, 1), STRIPS.by(0, 2), List.of(STRIPS.by(0))));
        assertFalse(Crossing.isEven(STRIPS.by(0, 1), STRIPS.by(0, 2), List.of()));
        assertFalse(Crossing.isEven(STRIPS.by(0, 1), STRIPS.by(0, 2), List.of(STRIPS.by(0, 1))));
    }

    @Test
    void groupsThatNeverMeetAreUneven() {
        var a = Grouping.by(List.of(1, 1, 2, 2, 3, 3));
        var b = Grouping.by(List.of(1, 2, 2, 3, 3, 1));
        assertFalse(Crossing.isEven(a, b, List.of()));
    }

    /** By the definition: averages of even groupings commute, and what the blocks leave of them is orthogonal. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void evenIsWhatCommutes(long seed) {
        var random = new Random(seed);
        var grid = Grid.of(2 + random.nextInt(2), 2 + random.nextInt(2), 2).without(random.nextInt(3), seed);
        var a = grid.by(0);
        var b = grid.by(1);
        double[] vector = random.doubles(grid.size(), -1, 1).toArray();
        double apart = Vectors.squaredLength(Vectors.minus(
                a.average(b.average(vector)), Grouping.whole(grid.size()).average(vector)));
        assertEquals(apart < 1e-20, Crossing.isEven(a, b, List.of()));
    }
}
