package org.fairtray.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** Powers and sizes of R 4.2.2's power.prop.test, and published ones. */
class TwoProportionsTest {
    private static final Tolerance NEAR = new Tolerance(1e-9);

    @ParameterizedTest
    @CsvFileSource(resources = "power-proportions.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(double p1, double p2, double n, double alpha, double power) {
        NEAR.assertClose(power, new TwoProportions(p1, p2, alpha).power(n));
    }

    /** R's documentation of power.prop.test: 0.50 against 0.75 with power 0.90 takes 76.7 a group. */
    @Test
    void agreesWithADocumentedSize() {
        assertEquals(76.7, new TwoProportions(0.50, 0.75, 0.05).size(0.90), 0.05);
    }

    /** Fleiss (1981), chapter 3, from memory: 0.60 against 0.70 at 0.01 with power 0.95 takes 827 a group. */
    @Test
    void agreesWithAPublishedSize() {
        var rates = new TwoProportions(0.60, 0.70, 0.01);
        assertEquals(807.0674, rates.size(0.95), 1e-3, "power.prop.test of R 4.2.2");
        assertEquals(827, Math.ceil(rates.correctedSize(0.95)));
    }

    /** Recomputed from Fleiss's formula with R 4.2.2's qnorm. */
    @ParameterizedTest
    @CsvSource({"0.35, 0.50, 183", "0.80, 0.90, 219", "0.05, 0.10, 474", "0.50, 0.60, 408"})
    void correctedSizes(double one, double other, int size) {
        assertEquals(size, Math.ceil(new TwoProportions(one, other, 0.05).correctedSize(0.80)));
    }

    @Test
    void aSizeHasThePowerThatItWasAskedFor() {
        var rates = new TwoProportions(0.35, 0.50, 0.05);
        assertEquals(0.8, rates.power(rates.size(0.8)), 1e-12);
        assertEquals(rates.power(50), new TwoProportions(0.50, 0.35, 0.05).power(50));
    }

    @Test
    void ratesMustDiffer() {
        assertThrows(IllegalArgumentException.class, () -> new TwoProportions(0.5, 0.5, 0.05));
        assertThrows(IllegalArgumentException.class, () -> new TwoProportions(0, 0.5, 0.05));
    }
}
