package org.fairtray.analysis.soundness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.fairtray.statistics.residuals.ReplicateRange;
import org.junit.jupiter.api.Test;

class ToleranceTableTest {

    @Test
    void theExactRuleComesWithinOnePointOfEveryEntry() {
        int same = 0;
        for (int mean = 2; mean <= 99; mean++) {
            int table = ToleranceTable.of(mean).orElseThrow();
            int exact = ReplicateRange.of(4, 100, mean / 100.0).tolerance(Replicates.ERROR);
            assertTrue(Math.abs(table - exact) <= 1, mean + " %: table " + table + ", exact " + exact);
            same += mean > 50 && table == exact ? 1 : 0;
        }
        assertEquals(38, same, "of the 49 entries from 51 to 99 %");
    }

    @Test
    void edgesOfClassesStandAsTheTableHasThem() {
        var means = new int[] {99, 94, 93, 92, 56, 55, 51, 50, 46, 45, 35, 8, 7, 2};
        var tolerances = new int[] {5, 10, 10, 11, 19, 20, 20, 20, 20, 19, 19, 10, 10, 5};
        IntStream.range(0, means.length)
                .forEach(i ->
                        assertEquals(tolerances[i], ToleranceTable.of(means[i]).orElseThrow(), means[i] + " %"));
    }

    @Test
    void thereIsNoneWhereTheTableHasNone() {
        IntStream.of(0, 1, 100).forEach(m -> assertEquals(OptionalInt.empty(), ToleranceTable.of(m)));
    }
}
