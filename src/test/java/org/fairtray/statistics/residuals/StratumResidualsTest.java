package org.fairtray.statistics.residuals;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.Tolerance;
import org.fairtray.design.Generator;
import org.fairtray.statistics.Grouping;
import org.junit.jupiter.api.Test;

/**
 * Three treatments, four blocks, twelve weighted values; R 4.2.2: y <- c(21,18,25,30,27,24,40,29,33,31,35,34); x <-
 * gl(3,4); b <- gl(4,1,12); w <- rep(c(1,2,3),4); m <- lm(y~x+b, weights=w).
 */
class StratumResidualsTest {
    private static final double[] VALUES = {21, 18, 25, 30, 27, 24, 40, 29, 33, 31, 35, 34};
    private static final Grouping SINGLE =
            Grouping.by(IntStream.range(0, 12).boxed().toList());
    private static final Grouping BLOCKS =
            Grouping.by(IntStream.range(0, 12).mapToObj(i -> i % 4).toList());
    private static final Grouping TREATMENTS =
            Grouping.by(IntStream.range(0, 12).mapToObj(i -> i / 4).toList());

    private static StratumResiduals fit(double leastDispersion) {
        double[] weights = IntStream.range(0, 12).mapToDouble(i -> 1 + i % 3).toArray();
        return StratumResiduals.of(TREATMENTS.indicators(), VALUES, weights, SINGLE, List.of(BLOCKS), leastDispersion);
    }

    private static List<double[]> further(double... column) {
        var columns = new ArrayList<double[]>();
        columns.add(column);
        return columns;
    }

    /** R 4.2.2: rstudent(m). */
    @Test
    void studentisedResidualsAreThoseOfR() {
        double[] expected = {
            -0.198899690083283,
            -0.140919841552329,
            -0.931695779841897,
            1.792835830045777,
            -0.457702471865176,
            -0.373035621714421,
            3.234222436936845,
            -0.773205030444010,
            0.607957722777991,
            0.627195117623499,
            -0.727721664940208,
            -0.431498252581075
        };
        var outliers = Outliers.of(fit(0), fit(0).residuals());
        for (int i = 0; i < 12; i++) {
            Tolerance.SUMMED.assertClose(expected[i], outliers.studentised(i));
        }
        assertEquals(6, outliers.farthest());
    }

    /** R 4.2.2: deviance(m); anova(m, lm(y~x+b+z, weights=w)) with z <- c(1,4,2,8,5,7,1,3,9,2,6,4). */
    @Test
    void aFurtherColumnIsTestedAsInR() {
        assertEquals(6, fit(0).df());
        Tolerance.SUMMED.assertClose(116.028081123245, fit(0).sumOfSquares());
        var test = fit(0).added(further(1, 4, 2, 8, 5, 7, 1, 3, 9, 2, 6, 4)).orElseThrow();
        Tolerance.SUMMED.assertClose(0.043271038001716, test.f());
        Tolerance.SUMMED.assertClose(0.843423476274937, test.p());
    }

    @Test
    void aColumnOfTheBlocksAddsNothing() {
        assertTrue(fit(0).added(further(1, 2, 3, 4, 1, 2, 3, 4, 1, 2, 3, 4)).isEmpty());
        assertEquals(0, fit(0).adds(TREATMENTS.indicators()));
    }

    @Test
    void noDispersionIsBelowTheLeastOne() {
        var column = further(1, 4, 2, 8, 5, 7, 1, 3, 9, 2, 6, 4);
        double usual = fit(0).added(column).orElseThrow().f();
        double meanSquare = 115.032565421289 / 5;
        Tolerance.SUMMED.assertClose(
                usual * meanSquare / 100, fit(100).added(column).orElseThrow().f());
    }

    @Test
    void unitsThatLieInTwoBlocksAreRefused() {
        var ones = IntStream.range(0, 12).mapToDouble(i -> 1).toArray();
        assertThrows(
                IllegalArgumentException.class,
                () -> StratumResiduals.of(List.of(), VALUES, ones, TREATMENTS, List.of(BLOCKS), 0));
    }

    @Test
    void neighboursThatRiseTogetherAreAlikeAndThoseThatAlternateAreNot() {
        var pairs = IntStream.range(0, 11)
                .mapToObj(i -> new Neighbours.Pair(i, i + 1))
                .toList();
        double[] rising = IntStream.range(0, 12).mapToDouble(i -> i - 5.5).toArray();
        double[] alternating =
                IntStream.range(0, 12).mapToDouble(i -> i % 2 == 0 ? 1 : -1).toArray();
        var all = Grouping.whole(12);
        var alike = Neighbours.of(rising, pairs, all, 999, Generator.of(1));
        assertTrue(alike.moran() > 0.7 && alike.p() <= 0.002, alike.toString());
        var unlike = Neighbours.of(alternating, pairs, all, 999, Generator.of(1));
        Tolerance.CLOSED_FORM.assertClose(-1, unlike.moran());
        assertEquals(1, unlike.p(), 1e-12);
    }
}
