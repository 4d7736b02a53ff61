package org.fairtray.statistics;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class TailTest {
    /** The continued fraction of the incomplete beta or gamma function loses a digit or two in far tails. */
    private static final Tolerance TAILS = new Tolerance(1e-10);

    @ParameterizedTest
    @CsvFileSource(resources = "tail-f.csv", useHeadersInDisplayName = true)
    void fAgreesWithTheReference(double f, double numerator, double denominator, double p) {
        TAILS.assertClose(p, Tail.f(f, numerator, denominator));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "tail-chi-squared.csv", useHeadersInDisplayName = true)
    void chiSquaredAgreesWithTheReference(double x, double df, double p) {
        TAILS.assertClose(p, Tail.chiSquared(x, df));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "tail-t.csv", useHeadersInDisplayName = true)
    void tAgreesWithTheReference(double t, double df, double p) {
        TAILS.assertClose(p, Tail.tTwoSided(t, df));
        TAILS.assertClose(p, Tail.tTwoSided(-t, df));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "t-quantile.csv", useHeadersInDisplayName = true)
    void tQuantileAgreesWithTheReference(double p, double df, double t) {
        ITERATED.assertClose(t, Tail.tQuantile(p, df), Math.max(1e-3, Math.abs(t)));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "normal-quantile.csv", useHeadersInDisplayName = true)
    void normalQuantileAgreesWithTheReference(double p, double z) {
        CLOSED_FORM.assertClose(z, Tail.normalQuantile(p));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "chi-squared-quantile.csv", useHeadersInDisplayName = true)
    void chiSquaredQuantileAgreesWithTheReference(double p, double df, double x) {
        TAILS.assertClose(x, Tail.chiSquaredQuantile(p, df));
    }

    @Test
    void endsAreExact() {
        assertEquals(1, Tail.f(0, 2, 3));
        assertEquals(0, Tail.f(Double.POSITIVE_INFINITY, 2, 3));
        assertEquals(1, Tail.chiSquared(0, 4));
        assertEquals(0, Tail.chiSquared(Double.POSITIVE_INFINITY, 4));
        assertEquals(1, Tail.tTwoSided(0, 5));
        assertEquals(0, Tail.tTwoSided(Double.NEGATIVE_INFINITY, 5));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1, 0, Double.NaN})
    void refusesDegreesOfFreedomThatAreNone(double df) {
        refuses(() -> Tail.f(1, df, 3));
        refuses(() -> Tail.f(1, 3, df));
        refuses(() -> Tail.chiSquared(1, df));
        refuses(() -> Tail.tTwoSided(1, df));
        refuses(() -> Tail.tQuantile(0.5, df));
        refuses(() -> Tail.chiSquaredQuantile(0.5, df));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-0.1, 0, 1, 1.1, Double.NaN})
    void refusesProportionsOutOfRange(double p) {
        refuses(() -> Tail.tQuantile(p, 5));
        refuses(() -> Tail.normalQuantile(p));
        refuses(() -> Tail.chiSquaredQuantile(p, 5));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1e-9, Double.NaN})
    void refusesNegativeStatistics(double statistic) {
        refuses(() -> Tail.f(statistic, 1, 1));
        refuses(() -> Tail.chiSquared(statistic, 1));
    }

    @Test
    void saysWhatWasOutOfRange() {
        var refused = assertThrows(IllegalArgumentException.class, () -> Tail.f(-1, 2, 3));
        assertEquals("F of [-1.0, 2.0, 3.0]: out of range", refused.getMessage());
    }

    private static void refuses(Executable call) {
        assertThrows(IllegalArgumentException.class, call);
    }
}
