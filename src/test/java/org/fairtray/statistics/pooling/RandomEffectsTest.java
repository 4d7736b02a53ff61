package org.fairtray.statistics.pooling;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.Cells;
import org.fairtray.statistics.Interval;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RandomEffectsTest {
    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "random-effects.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 20000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Doubles.class) double[] estimates,
            @ConvertWith(Cells.Doubles.class) double[] variances,
            double estimate,
            double error,
            double plainError,
            double low,
            double high,
            double p,
            double tauSquared,
            @ConvertWith(Cells.Doubles.class) double[] tauSquaredInterval,
            double q,
            double qP,
            double iSquared,
            @ConvertWith(Cells.Doubles.class) double[] prediction,
            @ConvertWith(Cells.Doubles.class) double[] weights) {
        var pooled = RandomEffects.of(Invented.studies(estimates, variances), 0.05);
        assertTrue(pooled.settled());
        ITERATED.assertClose(tauSquared, pooled.tauSquared().orElseThrow());
        ITERATED.assertClose(estimate, pooled.estimate());
        ITERATED.assertClose(error, pooled.standardError().orElseThrow());
        ITERATED.assertClose(plainError, pooled.plainStandardError());
        ITERATED.assertClose(new double[] {low, high}, pooled.low(), pooled.high());
        ITERATED.assertClose(p, pooled.p());
        ITERATED.assertClose(
                tauSquaredInterval,
                ends(pooled.tauSquaredInterval().orElseThrow(() -> new AssertionError("no interval of " + name))));
        SUMMED.assertClose(q, pooled.q().orElseThrow());
        ITERATED.assertClose(qP, pooled.qP().orElseThrow());
        ITERATED.assertClose(iSquared, pooled.iSquared().orElseThrow());
        ITERATED.assertClose(prediction, ends(pooled.prediction().orElseThrow()));
        ITERATED.assertClose(weights, pooled.weights());
    }

    private static double[] ends(Interval interval) {
        return new double[] {interval.low(), interval.high()};
    }

    /** What is left is the difference of the two, N(0, v_1 + v_2 + 2 tau^2). */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.1, 1, 3, 1e3, 1e9})
    void twoStudiesHaveAFormula(double apart) {
        var pooled = RandomEffects.of(List.of(new Study(0, 0.2), new Study(apart, 0.5)), 0.1);
        double tauSquared = Math.max(0, (apart * apart - 0.7) / 2);
        SUMMED.assertClose(tauSquared, pooled.tauSquared().orElseThrow());
        SUMMED.assertClose(apart * (0.2 + tauSquared) / (0.7 + 2 * tauSquared), pooled.estimate());
        SUMMED.assertClose(apart * apart / 0.7, pooled.q().orElseThrow());
        assertEquals(1, pooled.degreesOfFreedom());
    }

    /** With equal variances v: tau^2 is the variance of the estimates less v, and mu their mean. */
    @ParameterizedTest
    @ValueSource(doubles = {1e-6, 1e-3, 0.1, 0.9})
    void equalVariancesHaveAFormula(double variance) {
        var estimates = new double[] {0.1, 1.4, 2.2, -0.5, 0.9};
        var pooled = RandomEffects.of(
                Invented.studies(
                        estimates,
                        IntStream.range(0, 5).mapToDouble(i -> variance).toArray()),
                0.05);
        SUMMED.assertClose(Math.max(0, 1.127 - variance), pooled.tauSquared().orElseThrow());
        SUMMED.assertClose(0.82, pooled.estimate());
        SUMMED.assertClose(Math.sqrt(1.127 / 5), pooled.standardError().orElseThrow());
    }

    /**
     * Two precise studies close together, six vague ones far apart: the likelihood has two tops, and which is higher turns with
     * how far. R 4.2.2: optimize(tol = 1e-14) of the restricted log-likelihood about each top; at 2 the other one, 2.0752, is
     * lower by 0.64.
     */
    @ParameterizedTest
    @CsvSource({"2, 4.903755064517115e-05", "2.2, 2.821807492392471"})
    void theHigherOfTwoTopsIsFound(double apart, double tauSquared) {
        var pooled = RandomEffects.of(
                Invented.studies(
                        new double[] {0, 0.01, apart, -apart, apart, -apart, apart, -apart},
                        new double[] {1e-6, 1e-6, 1, 1, 1, 1, 1, 1}),
                0.05);
        assertTrue(pooled.settled());
        ITERATED.assertClose(tauSquared, pooled.tauSquared().orElseThrow());
    }

    @Test
    void aSingleStudyIsItself() {
        var pooled = RandomEffects.of(List.of(new Study(0.5, 0.04)), 0.05);
        assertTrue(pooled.settled());
        CLOSED_FORM.assertClose(
                new double[] {0.5, 0.2, 0.5 - 0.2 * 1.959963984540054, 0.5 + 0.2 * 1.959963984540054},
                pooled.estimate(),
                pooled.plainStandardError(),
                pooled.low(),
                pooled.high());
        SUMMED.assertClose(0.012419330651552318, pooled.p());
        assertEquals(pooled.low(), pooled.verdictLow());
        assertEquals(pooled.high(), pooled.verdictHigh());
        assertEquals(pooled.p(), pooled.verdictP());
        assertEquals(0, pooled.degreesOfFreedom());
        var missing = OptionalDouble.empty();
        assertEquals(missing, pooled.standardError());
        assertEquals(missing, pooled.tauSquared());
        assertEquals(missing, pooled.q());
        assertEquals(missing, pooled.qP());
        assertEquals(missing, pooled.iSquared());
        assertEquals(missing, pooled.iSquaredFromQ());
        assertEquals(Optional.empty(), pooled.tauSquaredInterval());
        assertEquals(Optional.empty(), pooled.prediction());
        SUMMED.assertClose(new double[] {1}, pooled.weights());
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 10, 300})
    void equalEstimatesLeaveNothingBetween(int count) {
        var studies = Invented.studies(
                IntStream.range(0, count).mapToDouble(i -> 0.1).toArray(),
                IntStream.range(0, count).mapToDouble(i -> 0.3 + i).toArray());
        var pooled = RandomEffects.of(studies, 0.05);
        assertTrue(pooled.settled());
        assertEquals(0, pooled.tauSquared().orElseThrow());
        assertEquals(0, pooled.iSquared().orElseThrow());
        assertEquals(Optional.empty(), pooled.tauSquaredInterval());
        SUMMED.assertClose(0.1, pooled.estimate());
        SUMMED.assertClose(0, pooled.standardError().orElseThrow());
        assertTrue(pooled.verdictHigh() - pooled.verdictLow() > pooled.plainStandardError());
    }

    @Test
    void aVerdictNeverGainsFromTheSmallerError() {
        int plainLarger = 0;
        for (long seed = 1; seed <= 60; seed++) {
            var pooled = RandomEffects.of(Invented.studies(5, seed), 0.05);
            double apart = pooled.standardError().orElseThrow();
            boolean larger = pooled.plainStandardError() > apart;
            plainLarger += larger ? 1 : 0;
            double factor = larger ? pooled.plainStandardError() / apart : 1;
            SUMMED.assertClose(factor * (pooled.high() - pooled.low()), pooled.verdictHigh() - pooled.verdictLow());
            assertEquals(larger, pooled.verdictP() > pooled.p());
            assertEquals(pooled.verdictP() < 0.05, pooled.verdictLow() > 0 || pooled.verdictHigh() < 0);
        }
        assertTrue(plainLarger > 5 && plainLarger < 55);
    }

    @Test
    void whatIsTooLargeForNumbersIsNotSettled() {
        var pooled = RandomEffects.of(List.of(new Study(0, 1), new Study(1e200, 1)), 0.05);
        assertFalse(pooled.settled());
    }

    @Test
    void refusesNothingAndBadNumbers() {
        assertEquals(
                "0 studies, alpha 0.05: expected one or more, between 0 and 1",
                assertThrows(IllegalArgumentException.class, () -> RandomEffects.of(List.of(), 0.05))
                        .getMessage());
        assertThrows(IllegalArgumentException.class, () -> RandomEffects.of(List.of(new Study(1, 1)), 1));
        assertEquals(
                "estimate 0.1 with variance 0.0: expected finite numbers and a variance above 0",
                assertThrows(IllegalArgumentException.class, () -> new Study(0.1, 0))
                        .getMessage());
        assertThrows(IllegalArgumentException.class, () -> new Study(Double.NaN, 1));
        assertThrows(IllegalArgumentException.class, () -> new Study(1, Double.POSITIVE_INFINITY));
    }
}
