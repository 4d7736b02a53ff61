package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class MixedLogisticFitTest {
    /** Second derivatives by differences on both sides lose half of the digits. */
    private static final Tolerance DIFFERENCES = new Tolerance(1e-5);

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "mixed-logistic-fit.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 20_000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Groupings.class) List<Grouping> groupings,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            @ConvertWith(Cells.Doubles.class) double[] deviations,
            double logLikelihood) {
        var fit = MixedLogisticFit.of(Models.of(rows), counts, groupings);
        assertTrue(fit.settled(), () -> "did not come to rest in " + fit.steps() + " steps");
        new Tolerance(1e-9).assertClose(logLikelihood, fit.logLikelihood());
        for (int g = 0; g < deviations.length; g++) {
            assertEquals(deviations[g] == 0, fit.atZero(g));
            ITERATED.assertClose(deviations[g], fit.standardDeviations()[g], 1);
        }
        for (int j = 0; j < coefficients.length; j++) {
            ITERATED.assertClose(coefficients[j], fit.estimates().coefficient(j), 1);
        }
        DIFFERENCES.assertClose(errors, Models.standardErrors(fit.estimates()));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void slopesAreThoseOfTheLikelihood(long seed) {
        var trial = InventedTrial.of(seed);
        var likelihood =
                new LaplaceLikelihood(trial.model(), new RandomIntercepts(36, trial.groupings()), trial.counts());
        var random = new Random(seed);
        double[] at = random.doubles(likelihood.size(), -1, 1).toArray();
        var slopes = new double[at.length];
        var unused = new double[at.length];
        likelihood.value(at, slopes);
        for (int k = 0; k < at.length; k++) {
            double[] to = at.clone();
            to[k] = at[k] + 1e-4;
            double above = likelihood.value(to, unused);
            to[k] = at[k] - 1e-4;
            double below = likelihood.value(to, unused);
            ITERATED.assertClose((above - below) / 2e-4, slopes[k], 1 + Math.abs(slopes[k]));
        }
    }

    /** The intercepts are symmetric, so the sign of a standard deviation means nothing. */
    @Test
    void theLikelihoodIsEvenInEachStandardDeviation() {
        var trial = InventedTrial.of(9);
        var likelihood =
                new LaplaceLikelihood(trial.model(), new RandomIntercepts(36, trial.groupings()), trial.counts());
        double[] at = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6};
        double[] mirrored = {0.1, 0.2, 0.3, -0.4, 0.5, -0.6};
        CLOSED_FORM.assertClose(likelihood.value(at, new double[6]), likelihood.value(mirrored, new double[6]));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void theOrderOfTraysAndGroupingsChangesNothing(long seed) {
        var trial = InventedTrial.of(seed);
        var fit = MixedLogisticFit.of(trial.model(), trial.counts(), trial.groupings());
        var other = trial.shuffled(new Random(seed));
        var groupings = new ArrayList<>(other.groupings());
        Collections.reverse(groupings);
        var again = MixedLogisticFit.of(other.model(), other.counts(), groupings);
        ITERATED.assertClose(fit.logLikelihood(), again.logLikelihood());
        for (int g = 0; g < 3; g++) {
            ITERATED.assertClose(fit.standardDeviations()[g], again.standardDeviations()[2 - g], 1);
        }
        for (int j = 0; j < 3; j++) {
            ITERATED.assertClose(
                    fit.estimates().coefficient(j), again.estimates().coefficient(j), 1);
        }
    }

    @Test
    void whereNumbersOverflowThereIsNoLikelihoodAndTheNextIsRightAgain() {
        var trial = InventedTrial.of(4);
        var likelihood =
                new LaplaceLikelihood(trial.model(), new RandomIntercepts(36, trial.groupings()), trial.counts());
        double[] at = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6};
        double before = likelihood.value(at, new double[6]);
        assertEquals(Double.NaN, likelihood.value(new double[] {0, 0, 0, 1e200, 0, 0}, new double[6]));
        assertEquals(Double.NaN, likelihood.value(new double[] {1e308, 1e308, 0, 1, 1, 1}, new double[6]));
        assertEquals(Double.NaN, likelihood.value(new double[] {Double.NaN, 0, 0, 1, 1, 1}, new double[6]));
        CLOSED_FORM.assertClose(before, likelihood.value(at, new double[6]));
    }

    /** A climb from anywhere else comes no higher. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void noPointNearbyIsLikelier(long seed) {
        var trial = InventedTrial.of(seed);
        var fit = MixedLogisticFit.of(trial.model(), trial.counts(), trial.groupings());
        assertTrue(fit.settled());
        var likelihood =
                new LaplaceLikelihood(trial.model(), new RandomIntercepts(36, trial.groupings()), trial.counts());
        var random = new Random(seed);
        for (int trials = 0; trials < 50; trials++) {
            double[] at = Arrays.copyOf(fit.estimates().coefficients(), likelihood.size());
            System.arraycopy(fit.standardDeviations(), 0, at, 3, 3);
            double far = Math.pow(10, -3 * random.nextDouble());
            for (int k = 0; k < at.length; k++) {
                at[k] += far * random.nextGaussian();
            }
            assertTrue(likelihood.value(at, new double[at.length]) <= fit.logLikelihood() + 1e-9);
        }
    }

    @Test
    void withoutGroupingsOrWithTraysAlikeItIsThePlainFit() {
        var model = Models.of(new double[][] {{1, 0}, {1, 1}, {1, 0}, {1, 1}});
        var counts = List.of(new Count(5, 20), new Count(9, 20), new Count(5, 20), new Count(9, 20));
        var plain = LogisticFit.of(model, counts);
        for (List<Grouping> groupings : List.of(List.<Grouping>of(), List.of(single(4)))) {
            var fit = MixedLogisticFit.of(model, counts, groupings);
            assertTrue(fit.settled());
            assertEquals(plain.logLikelihood(), fit.logLikelihood());
            assertArrayEquals(Models.coefficients(plain.estimates()), Models.coefficients(fit.estimates()));
            assertArrayEquals(Models.standardErrors(plain.estimates()), Models.standardErrors(fit.estimates()));
            for (int g = 0; g < groupings.size(); g++) {
                assertTrue(fit.atZero(g));
                assertArrayEquals(new double[4], fit.intercepts(g));
            }
        }
    }

    /**
     * With a hundred million seeds a tray the log-odds of each are known, and the fit is that of normal values: base their mean,
     * standard deviation their root mean square about it, intercepts the rest.
     */
    @Test
    void withHugeTraysItIsTheNormalModel() {
        double[] odds = {-0.5, 0.1, 0.4, -0.2, 0.7, 0.1};
        var counts = new ArrayList<Count>();
        var rows = new double[odds.length][];
        for (int i = 0; i < odds.length; i++) {
            counts.add(new Count(Math.round(100_000_000 * LogisticFit.rate(odds[i])), 100_000_000));
            rows[i] = new double[] {1};
        }
        var fit = MixedLogisticFit.of(Models.of(rows), counts, List.of(single(odds.length)));
        assertTrue(fit.settled());
        double mean = 0.1;
        double square = 0;
        for (double each : odds) {
            square += (each - mean) * (each - mean) / odds.length;
        }
        ITERATED.assertClose(mean, fit.estimates().coefficient(0));
        ITERATED.assertClose(Math.sqrt(square), fit.standardDeviations()[0]);
        DIFFERENCES.assertClose(Math.sqrt(square / odds.length), fit.estimates().standardError(0));
        for (int i = 0; i < odds.length; i++) {
            ITERATED.assertClose(odds[i] - mean, fit.intercepts(0)[i], 1);
        }
    }

    @Test
    void infiniteEstimatesAreNotTakenForSettled() {
        var model = Models.of(new double[][] {{1, 0}, {1, 0}, {1, 0}, {1, 1}, {1, 1}, {1, 1}});
        var spread = List.of(
                new Count(2, 20),
                new Count(18, 20),
                new Count(9, 20),
                new Count(0, 20),
                new Count(0, 20),
                new Count(0, 20));
        var alike = List.of(
                new Count(9, 20),
                new Count(9, 20),
                new Count(9, 20),
                new Count(0, 20),
                new Count(0, 20),
                new Count(0, 20));
        var nothing = List.of(
                new Count(0, 20),
                new Count(0, 20),
                new Count(0, 20),
                new Count(0, 20),
                new Count(0, 20),
                new Count(0, 20));
        for (var counts : List.of(spread, alike, nothing)) {
            var fit = MixedLogisticFit.of(model, counts, List.of(single(6)));
            assertFalse(fit.settled());
            assertTrue(Double.isFinite(fit.logLikelihood()));
            for (int j = 0; j < 2; j++) {
                assertTrue(Double.isFinite(fit.estimates().coefficient(j)));
                assertTrue(Double.isFinite(fit.estimates().standardError(j)));
            }
        }
    }

    @Test
    void theSameGroupingTwiceIsNotTakenForSettled() {
        var trial = InventedTrial.of(2);
        var twice = List.of(trial.groupings().get(2), trial.groupings().get(2));
        var once = MixedLogisticFit.of(trial.model(), trial.counts(), twice.subList(0, 1));
        var fit = MixedLogisticFit.of(trial.model(), trial.counts(), twice);
        assertFalse(once.atZero(0));
        assertTrue(!fit.settled() || fit.atZero(0) || fit.atZero(1));
        ITERATED.assertClose(once.logLikelihood(), fit.logLikelihood());
    }

    @Test
    void oneTrayIsFittedExactly() {
        var model = Models.of(new double[][] {{1}});
        var fit = MixedLogisticFit.of(model, List.of(new Count(3, 10)), List.of(single(1)));
        assertTrue(fit.settled() && fit.atZero(0));
        ITERATED.assertClose(Math.log(3 / 7.0), fit.estimates().coefficient(0));
    }

    @Test
    void refusesGroupingsOfOtherLengthsAndCountsWithoutTrials() {
        var model = Models.of(new double[][] {{1}, {1}});
        var counts = List.of(new Count(1, 2), new Count(0, 2));
        var refused = assertThrows(
                IllegalArgumentException.class, () -> MixedLogisticFit.of(model, counts, List.of(single(3))));
        assertEquals("a grouping of 3: expected of 2", refused.getMessage());
        var empty = List.of(new Count(1, 2), new Count(0, 0));
        assertThrows(IllegalArgumentException.class, () -> MixedLogisticFit.of(model, empty, List.of(single(2))));
    }

    private static Grouping single(int trays) {
        return Grouping.by(IntStream.range(0, trays).boxed().toList());
    }
}
