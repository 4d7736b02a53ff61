package org.fairtray.statistics.logistic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import java.util.stream.LongStream;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;

/** All invented trials have the same trays, so one workspace serves them. */
class MixedRatioTest {
    private static final InventedTrial TRIAL = InventedTrial.of(1);
    private static final ModelMatrix LARGER = TRIAL.model();
    private static final ModelMatrix SMALLER = mean(36);

    private static ModelMatrix mean(int rows) {
        return Models.of(Collections.nCopies(rows, new double[] {1}).toArray(double[][]::new));
    }

    private static MixedRatio ratio() {
        return MixedRatio.of(SMALLER, LARGER, TRIAL.groupings());
    }

    @Test
    void itIsTwiceTheDifferenceOfTheTwoFits() {
        var ratio = ratio();
        for (long seed = 1; seed <= 30; seed++) {
            var counts = InventedTrial.of(seed).counts();
            double over = MixedLogisticFit.of(LARGER, counts, TRIAL.groupings()).logLikelihood();
            double under =
                    MixedLogisticFit.of(SMALLER, counts, TRIAL.groupings()).logLikelihood();
            var found = ratio.of(counts);
            assertTrue(found.settled());
            assertEquals(2 * (over - under), found.value(), 1e-8);
        }
    }

    @Test
    void countsBeforeChangeNothingAtAll() {
        var ratio = ratio();
        var inARow = LongStream.rangeClosed(1, 10)
                .mapToObj(s -> ratio.of(InventedTrial.of(s).counts()))
                .toList();
        var alone = LongStream.rangeClosed(1, 10)
                .mapToObj(s -> ratio().of(InventedTrial.of(s).counts()))
                .toList();
        assertEquals(alone, inARow);
    }

    /** None of 20 in one half, all of 20 in the other: the larger model has no maximum, but its likelihood nears 1. */
    @Test
    void whereOddsAreInfiniteTheRatioIsWhatWasReached() {
        double[][] rows = {{1, 0}, {1, 0}, {1, 1}, {1, 1}};
        var none = new Count(0, 20);
        var all = new Count(20, 20);
        var found = MixedRatio.of(mean(4), Models.of(rows), List.of(Grouping.by(List.of(1, 2, 3, 4))))
                .of(List.of(none, none, all, all));
        double under = MixedLogisticFit.of(
                        mean(4), List.of(none, none, all, all), List.of(Grouping.by(List.of(1, 2, 3, 4))))
                .logLikelihood();
        assertEquals(-2 * under, found.value(), 1e-6);
    }

    @Test
    void modelsOfOtherRowsAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> MixedRatio.of(mean(35), LARGER, TRIAL.groupings()));
    }
}
