package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collection;
import org.fairtray.statistics.Tail;

/** Whether every arrangement comes equally often: all are seen, and chi-squared is not out of the ordinary. */
final class Uniformity {
    /** With fixed seeds a test either always or never fails; below this it would not be believed. */
    private static final double LEAST_P = 0.001;

    private Uniformity() {}

    static void assertUniform(Collection<Integer> counts, int arrangements, int draws) {
        assertEquals(arrangements, counts.size(), "different arrangements seen");
        double expected = (double) draws / arrangements;
        double chiSquared = counts.stream()
                .mapToDouble(c -> (c - expected) * (c - expected) / expected)
                .sum();
        double p = Tail.chiSquared(chiSquared, arrangements - 1.0);
        assertTrue(p > LEAST_P, "chi-squared " + chiSquared + " on " + (arrangements - 1) + ", p = " + p);
    }
}
