package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BestLevelTest {
    /** R 4.2.2: lm(y ~ x + I(x^2)) of x 0 0 4 4 8 8 12 12 16 16, y 40 44 58 55 66 70 71 67 60 64; 7 df. */
    private static final double SLOPE = 5.133928571428566;

    private static final double CURVATURE = -0.23883928571428553;
    private static final double[][] COVARIANCE = {
        {0.24611424927113648, -0.014144497084548076}, {-0.014144497084548076, 8.840310677842551e-4}
    };

    /** The t quantile is found by steps. */
    private static final Tolerance OF_QUANTILE = new Tolerance(1e-8);

    private static BestLevel at(double confidence) {
        return BestLevel.of(SLOPE, CURVATURE, COVARIANCE, 7, confidence).orElseThrow();
    }

    /** Ends by uniroot where |b1 + 2 b2 x| is t(0.975, 7) standard errors. */
    @Test
    void agreesWithTheReference() {
        var best = at(0.95);
        SUMMED.assertClose(-SLOPE / 2 / CURVATURE, best.level());
        assertEquals(BestLevel.Kind.MAXIMUM, best.kind());
        var between = (LevelRange.Between) best.range();
        OF_QUANTILE.assertClose(9.861388600459179, between.low());
        OF_QUANTILE.assertClose(12.155298499587252, between.high());
    }

    /** By the t of the slope at each x, found apart: its ends are where it just reaches the quantile. */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 0.95, 0.999, 0.9999, 0.99999, 0.999999})
    void everyLevelIsExcludedJustWhereItsSlopeDiffersFromZero(double confidence) {
        var range = at(confidence).range();
        double t = Tail.tQuantile((1 + confidence) / 2, 7);
        int held = 0;
        for (double x = -200; x <= 200; x += 0.5) {
            double slope = SLOPE + 2 * CURVATURE * x;
            double variance = COVARIANCE[0][0] + 4 * x * COVARIANCE[0][1] + 4 * x * x * COVARIANCE[1][1];
            boolean holds = slope * slope <= t * t * variance;
            assertEquals(holds, holds(range, x), range + " at " + x);
            held += holds ? 1 : 0;
        }
        assertTrue(held > 0);
    }

    private static boolean holds(LevelRange range, double x) {
        return range.match(b -> b.low() <= x && x <= b.high(), o -> x <= o.below() || x >= o.above(), a -> true);
    }

    @Test
    void allKindsOfRangesOccur() {
        assertTrue(at(0.999).range() instanceof LevelRange.Between);
        assertTrue(at(0.99999).range() instanceof LevelRange.Outside);
        assertEquals(new LevelRange.Anywhere(), at(0.999999).range());
    }

    @Test
    void aValleyIsAMinimum() {
        var known = BestLevel.of(-4, 0.5, new double[][] {{0.01, 0}, {0, 0.0001}}, Double.POSITIVE_INFINITY, 0.95);
        assertEquals(BestLevel.Kind.MINIMUM, known.orElseThrow().kind());
        assertEquals(4, known.orElseThrow().level());
    }

    @Test
    void tellsNothingWithoutCurvatureOrVariance() {
        assertEquals(Optional.empty(), BestLevel.of(1, 0, COVARIANCE, 7, 0.95));
        assertEquals(Optional.empty(), BestLevel.of(1, 1, new double[2][2], 7, 0.95));
    }

    @Test
    void saysWhatIsOutOfRange() {
        var refused = assertThrows(IllegalArgumentException.class, () -> BestLevel.of(1, 1, new double[3][3], 0, 0.95));
        assertEquals(
                "covariance of 3 rows, 0.0 degrees of freedom, confidence 0.95: expected 2, above 0, between 0 and 1",
                refused.getMessage());
    }
}
