package org.fairtray.statistics.logistic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.core.source64.SplitMix64;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Models;
import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;

class ParametricBootstrapTest {

    /** Trays one after the other, half of them with a treatment. */
    private static ModelMatrix model(int trays, boolean treated) {
        var rows = new double[trays][];
        for (int i = 0; i < trays; i++) {
            rows[i] = treated ? new double[] {1, i % 2} : new double[] {1};
        }
        return Models.of(rows);
    }

    private static List<Count> counts(int... of50) {
        var counts = new ArrayList<Count>();
        for (int y : of50) {
            counts.add(new Count(y, 50));
        }
        return counts;
    }

    private static Grouping single(int trays) {
        return Grouping.by(java.util.stream.IntStream.range(0, trays).boxed().toList());
    }

    private static ParametricBootstrap of(List<Count> counts, int draws, long seed) {
        int trays = counts.size();
        return ParametricBootstrap.of(
                model(trays, false),
                model(trays, true),
                counts,
                List.of(single(trays)),
                draws,
                new SplitMix64(seed),
                done -> {});
    }

    /** With many trays the chi-squared distribution is right: 500 draws leave a standard error of 0.02 about p. */
    @Test
    void withManyTraysItIsNearTheChiSquaredDistribution() {
        var random = new SplitMix64(3);
        var counts = new ArrayList<Count>();
        for (int i = 0; i < 80; i++) {
            counts.add(new Count(15 + random.nextInt(20) + i % 2, 50));
        }
        var result = of(counts, 500, 5);
        double asymptotic = Tail.chiSquared(result.observed(), 1);
        assertTrue(asymptotic > 0.05 && asymptotic < 0.95, () -> "p was " + asymptotic);
        assertEquals(asymptotic, result.p(), 4 * Math.sqrt(asymptotic * (1 - asymptotic) / 500) + 0.02);
        assertEquals(500, result.draws() + result.failed());
        assertTrue(result.complete());
    }

    /** With 3 trays a side ratios are larger than the chi-squared distribution allows, so p must be. */
    @Test
    void withFewTraysItIsAboveTheChiSquaredDistribution() {
        var result = of(counts(10, 25, 20, 28, 12, 38), 400, 5);
        double asymptotic = Tail.chiSquared(result.observed(), 1);
        assertTrue(result.p() > 1.5 * asymptotic, () -> result + " against " + asymptotic);
    }

    @Test
    void withoutAnyDifferencePIsOneAndWithAHugeOneTheLeastThereIs() {
        assertEquals(1, of(counts(20, 20, 20, 20), 19, 1).p());
        assertEquals(0.05, of(counts(1, 49, 2, 48, 1, 49, 2, 48), 19, 1).p());
    }

    @Test
    void theSameDrawsGiveTheSame() {
        assertEquals(of(counts(10, 25, 20, 28), 30, 8), of(counts(10, 25, 20, 28), 30, 8));
    }

    @Test
    void tellsItsProgressAndEndsWhereTheThreadIsInterrupted() {
        var told = new ArrayList<Integer>();
        var result = ParametricBootstrap.of(
                model(4, false),
                model(4, true),
                counts(10, 25, 20, 28),
                List.of(single(4)),
                1_000_000_000,
                new SplitMix64(1),
                done -> {
                    told.add(done);
                    if (done == 3) {
                        Thread.currentThread().interrupt();
                    }
                });
        assertTrue(Thread.interrupted());
        assertEquals(List.of(1, 2, 3), told);
        assertFalse(result.complete());
        assertEquals(3, result.draws() + result.failed());
    }

    @Test
    void refusesToDrawNothing() {
        var refused = assertThrows(IllegalArgumentException.class, () -> of(counts(1, 2), 0, 1));
        assertEquals("0 draws: expected 1 or more", refused.getMessage());
    }
}
