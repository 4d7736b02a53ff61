package org.fairtray;

import static org.junit.jupiter.api.Assertions.fail;

/**
 * How near a number must come to its reference, by how it was reached.
 *
 * @param relative largest difference as a share of the reference; of 1 where the reference is 0
 */
public record Tolerance(double relative) {
    /** By a formula: nothing is lost but rounding. */
    public static final Tolerance CLOSED_FORM = new Tolerance(1e-12);

    /** By steps that end when they hardly move, on either side. */
    public static final Tolerance ITERATED = new Tolerance(1e-6);

    /** Sums of many rounded products, such as projections: their rounding adds up. */
    public static final Tolerance SUMMED = new Tolerance(1e-9);

    /** Fails unless {@code actual} is near {@code expected}. */
    public void assertClose(double expected, double actual) {
        assertClose(expected, actual, expected == 0 ? 1 : Math.abs(expected));
    }

    /** Fails unless the two differ by no more than this share of {@code scale}, for differences of large numbers. */
    public void assertClose(double expected, double actual, double scale) {
        if (!(expected == actual || Math.abs(actual - expected) <= relative * scale)) {
            fail("expected " + expected + " but was " + actual + ", apart by " + Math.abs(actual - expected) / scale
                    + " of " + scale);
        }
    }

    /** Fails unless both have the same length and every number is near its reference. */
    public void assertClose(double[] expected, double... actual) {
        if (expected.length != actual.length) {
            fail("expected " + expected.length + " numbers but were " + actual.length);
        }
        for (int i = 0; i < expected.length; i++) {
            assertClose(expected[i], actual[i]);
        }
    }
}
