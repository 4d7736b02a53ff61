package org.fairtray;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.FDistribution;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Trend;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;

/** How an outcome follows numeric levels, against R and closed forms. */
class AnalysisOfTrendsTest {
    private static final double[] HEIGHTS = {10, 11, 12.5, 13, 15, 14, 19, 18.5, 20, 15, 17, 16};
    private static final List<String> LEVELS = List.of("0", "1", "4", "6");

    private static Trend trend(OutcomeFindings found, String component) {
        return found.trends().stream()
                .filter(t -> t.component().equals(component))
                .findFirst()
                .orElseThrow();
    }

    /** Twelve trays, three of each level in turn. */
    private static Trials twelve(Outcome outcome, List<String> levels, String... ofEach) {
        return Trials.of(place("spot 12"), List.of(factor("soak", "tray", levels.toArray(String[]::new))), outcome)
                .laid(at -> List.of(ofEach[(at.get(0) - 1) / 3]));
    }

    private static Trials twelve(Outcome outcome) {
        return twelve(outcome, LEVELS, LEVELS.toArray(String[]::new));
    }

    private static int number(Tray tray) {
        return tray.stand().at().get(0) - 1;
    }

    private static OutcomeFindings only(Trials trials) {
        return trials.findings().outcomes().get(0);
    }

    private static OutcomeFindings heights(double... heights) {
        return only(twelve(HEIGHT).read(t -> Map.of("height_mm", heights[number(t)])));
    }

    /** Yates (1935); R 4.2.2: aov(yield ~ variety * nitro + Error(B/M)), split by contr.poly; slopes by lm of the means. */
    @Test
    void nitrogenTrendOfOatsIsThatOfThePartitionedVariance() {
        var oats = Datasets.analyse("yates-oats").outcomes().get(0);
        assertEquals(
                List.of("linear", "quadratic", "cubic", "lack of fit"),
                oats.trends().stream().map(Trend::component).toList());
        var linear = trend(oats, "linear");
        SUMMED.assertClose(73.6666666666667, linear.estimate());
        SUMMED.assertClose(-64.5833333333334, trend(oats, "quadratic").estimate());
        var f = new FDistribution(null, 1, 45);
        ITERATED.assertClose(
                1 - f.cumulativeProbability(480.5 / (7968.75 / 45)),
                trend(oats, "quadratic").p());
        double cubic = 1 - f.cumulativeProbability(3.6 / (7968.75 / 45));
        ITERATED.assertClose(cubic, trend(oats, "cubic").p());
        ITERATED.assertClose(cubic, trend(oats, "lack of fit").p());
        // t squared is the F of the trend, 110.3232: the interval is the estimate, give or take t(0.975, 45) of its
        // error
        double half = (linear.high() - linear.low()) / 2 / 2.01410338888085;
        ITERATED.assertClose(19536.4 / (7968.75 / 45), Math.pow(linear.estimate() / half, 2));
        assertEquals(List.of(), oats.best());
        assertEquals(
                "Nitro has a straight-line trend: along the line, 44.2 more at 0.6 cwt_per_acre than at 0 cwt_per_acre"
                        + " (95 % interval 35.7 to 52.7 more; p < 0.001).",
                linear.sentence());
        assertEquals(
                "No bend of nitro is shown (p = 0.11).",
                trend(oats, "quadratic").sentence());
    }

    /** R 4.2.2: lm(y ~ factor(x)) with contr.poly(4, scores = c(0, 1, 4, 6)); Fieller by hand from solve(crossprod(X)). */
    @Test
    void unevenLevelsGiveTheirOwnPolynomialsAndABestLevel() {
        var found = heights(HEIGHTS);
        var linear = trend(found, "linear");
        SUMMED.assertClose(0.912087912087912, linear.estimate());
        SUMMED.assertClose(0.627200580514952, linear.low());
        SUMMED.assertClose(1.19697524366087, linear.high());
        ITERATED.assertClose(7.74574993362062e-05, linear.p());
        var quadratic = trend(found, "quadratic");
        SUMMED.assertClose(-0.559322033898305, quadratic.estimate());
        SUMMED.assertClose(-0.758202569090167, quadratic.low());
        SUMMED.assertClose(-0.360441498706444, quadratic.high());
        ITERATED.assertClose(0.000191044296332686, quadratic.p());
        SUMMED.assertClose(-0.0638888888888889, trend(found, "cubic").estimate());
        ITERATED.assertClose(0.2652988538636734, trend(found, "cubic").p());
        var best = found.best().get(0);
        SUMMED.assertClose(3.78787878787879, best.level());
        SUMMED.assertClose(3.47648186449953, best.low());
        SUMMED.assertClose(4.33529054159067, best.high());
        assertTrue(best.inside());
        assertEquals("The curve of soak is highest near 3.79 (95 % interval 3.48 to 4.34).", best.sentence());
    }

    /** Two components beside the first two: with balance, F is that of their summed squares. */
    @Test
    void lackOfFitHoldsAllThatIsLeftBesideTheBend() {
        var levels = List.of("0", "1", "2", "3", "4");
        double[] means = {10, 14, 13, 17, 14};
        var trials = Trials.of(place("spot 10"), List.of(factor("soak", "tray", levels.toArray(String[]::new))), HEIGHT)
                .laid(at -> List.of(levels.get((at.get(0) - 1) / 2)))
                .read(t -> Map.of("height_mm", means[number(t) / 2] + (number(t) % 2 == 0 ? 1 : -1)));
        var lack = trend(only(trials), "lack of fit");
        assertEquals(2, lack.df());
        // contrasts (-1, 2, 0, -2, 1) and (1, -4, 6, -4, 1) of the means, two trays each; residual mean square 10/5
        double cubic = 2 * Math.pow(-10 + 28 - 34 + 14, 2) / 10;
        double quartic = 2 * Math.pow(10 - 56 + 78 - 68 + 14, 2) / 70;
        ITERATED.assertClose(
                1 - new FDistribution(null, 2, 5).cumulativeProbability((cubic + quartic) / 2 / 2), lack.p());
        assertNull(lack.estimate());
    }

    @Test
    void aCurveWithALowestPointHasNoBestLevel() {
        double[] upsideDown = new double[12];
        for (int i = 0; i < 12; i++) {
            upsideDown[i] = 30 - HEIGHTS[i];
        }
        var found = heights(upsideDown);
        assertEquals(List.of(), found.best());
        assertEquals(
                "The levels of soak don't lie on a straight line: the middle ones lie below it (p < 0.001). Such a curve has"
                        + " a lowest point and no best level between its ends.",
                trend(found, "quadratic").sentence());
    }

    @Test
    void aBestLevelBeyondThoseTriedIsCalledAHint() {
        double[] flattening = {10, 10.2, 9.8, 12.5, 12.7, 12.3, 18.4, 18.6, 18.2, 20.6, 20.8, 20.4};
        var best = heights(flattening).best().get(0);
        assertFalse(best.inside());
        assertTrue(best.level() > 6);
        assertTrue(
                best.sentence()
                        .endsWith(
                                " That lies beyond the levels that were tried, 0 to 6, where nothing is known: take it as a"
                                        + " hint which way to try."),
                best::sentence);
    }

    /** The line of rates 0.2, 0.3, 0.6, 0.4 by least squares over 0, 1, 4, 6: Sxy 0.975 over Sxx 22.75. */
    @Test
    void countsGiveTheSlopeOfTheirRates() {
        double[] through = {8, 10, 12, 14, 15, 16, 28, 30, 32, 18, 20, 22};
        var found = only(twelve(THROUGH).read(t -> Map.of("through", through[number(t)])));
        SUMMED.assertClose(0.975 / 22.75, trend(found, "linear").estimate());
        assertTrue(trend(found, "linear").p() < 0.05);
        assertEquals(1, found.best().size());
    }

    @Test
    void twoLevelsHaveALineAlone() {
        var found = only(
                twelve(THROUGH, List.of("0", "8"), "0", "8", "0", "8").read(t -> Map.of("through", 10.0 + number(t))));
        assertEquals(
                List.of("linear"), found.trends().stream().map(Trend::component).toList());
        SUMMED.assertClose(3.0 / 50 / 8, trend(found, "linear").estimate());
        SUMMED.assertClose(found.effects().get(0).p(), trend(found, "linear").p());
        SUMMED.assertClose(
                found.effects().get(0).low() / 8, trend(found, "linear").low());
    }

    @Test
    void levelsThatWereNotSownAndNamesHaveNoPart() {
        var unsown =
                only(twelve(HEIGHT, LEVELS, "0", "1", "4", "4").read(t -> Map.of("height_mm", HEIGHTS[number(t)])));
        assertEquals(2, unsown.trends().size());
        var one = only(twelve(HEIGHT, LEVELS, "4", "4", "4", "4").read(t -> Map.of("height_mm", HEIGHTS[number(t)])));
        assertEquals(List.of(), one.trends());
        var names = only(twelve(HEIGHT, List.of("0", "some"), "0", "some", "0", "some")
                .read(t -> Map.of("height_mm", HEIGHTS[number(t)])));
        assertEquals(List.of(), names.trends());
    }

    @Test
    void withoutRepeatsATrendHasNoP() {
        var trials = Trials.of(place("spot 4"), List.of(factor("soak", "tray", "0", "1", "4", "6")), THROUGH, HEIGHT)
                .laid(at -> List.of(LEVELS.get(at.get(0) - 1)))
                .read(t -> Map.of("through", 10.0 * (number(t) + 1), "height_mm", 3.0 * number(t)));
        for (var found : trials.findings().outcomes()) {
            assertEquals(4, found.trends().size());
            for (var each : found.trends()) {
                assertNull(each.p());
                assertNull(each.low());
                assertTrue(each.sentence().contains("can't be told"), each::sentence);
            }
            assertEquals(List.of(), found.best());
        }
    }

    @Test
    void noSpreadAtAllGivesNoP() {
        var found = heights(1, 1, 1, 2, 2, 2, 5, 5, 5, 3, 3, 3);
        found.trends().forEach(t -> assertNull(t.p(), t::sentence));
        assertEquals(List.of(), found.best());
    }

    @Test
    void allOrNoneThroughGivesFiniteTrends() {
        double[] through = {0, 0, 0, 20, 22, 25, 50, 50, 50, 50, 50, 50};
        var found = only(twelve(THROUGH).read(t -> Map.of("through", through[number(t)])));
        var linear = trend(found, "linear");
        assertTrue(linear.estimate() > 0.1 && linear.low() < linear.estimate(), linear::sentence);
        assertNotNull(linear.p());
        var none = only(twelve(THROUGH).readAll(0));
        assertEquals(0, trend(none, "linear").estimate(), 1e-9);
        assertTrue(none.best().isEmpty());
    }

    /** A trend over combinations: where some level was never sown with a mat, that mat has no part. */
    @Test
    void onlyCombinationsSownWithEveryLevelCount() {
        var trials = Trials.of(
                        place("spot 12"),
                        List.of(factor("soak", "tray", "0", "4", "8"), factor("mat", "tray", "hemp", "coir")),
                        HEIGHT)
                .laid(at -> List.of(
                        List.of("0", "4", "8", "0", "4", "4").get((at.get(0) - 1) / 2),
                        at.get(0) <= 6 ? "hemp" : "coir"))
                .interactions(2)
                .read(t -> Map.of("height_mm", 10 + 0.5 * number(t) + (number(t) % 2)));
        // hemp alone has all three: its means are 11, 12, 13 at 0, 4, 8
        SUMMED.assertClose(0.25, trend(only(trials), "linear").estimate());
    }
}
