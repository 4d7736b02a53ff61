package org.fairtray.statistics;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class AscentTest {

    /** -cosh(x - 3): far from the top a full step leads too far, near it Newton's steps are quick. */
    @Test
    void climbsToTheTop() {
        var ascent = Ascent.from(
                new double[] {-4},
                x -> new Ascent.Point(-Math.cosh(x[0] - 3), new double[] {-Math.sinh(x[0] - 3)}, new double[][] {
                    {Math.cosh(x[0] - 3)}
                }));
        assertTrue(ascent.settled());
        SUMMED.assertClose(3, ascent.place()[0]);
    }

    /** Starting where the surface is curved upwards: exp(-x^2/2) at 2. */
    @Test
    void climbsOutOfAHollow() {
        var ascent = Ascent.from(new double[] {2}, x -> {
            double height = Math.exp(-x[0] * x[0] / 2);
            return new Ascent.Point(height, new double[] {-x[0] * height}, new double[][] {{height * (1 - x[0] * x[0])}
            });
        });
        assertTrue(ascent.settled());
        SUMMED.assertClose(0, ascent.place()[0]);
    }

    @Test
    void onARidgeItDoesNotSettle() {
        var ascent = Ascent.from(new double[] {1, 5}, x -> {
            double sum = x[0] + x[1];
            return new Ascent.Point(-sum * sum, new double[] {-2 * sum, -2 * sum}, new double[][] {{2, 2}, {2, 2}});
        });
        assertFalse(ascent.settled());
        assertTrue(ascent.point().inverse().isEmpty());
    }

    @Test
    void withNothingToMoveItIsThere() {
        var ascent = Ascent.from(new double[0], x -> new Ascent.Point(7, new double[0], new double[0][0]));
        assertTrue(ascent.settled());
        assertEquals(7, ascent.point().value());
        assertEquals(0, ascent.steps());
    }

    @Test
    void refusesToStartWhereThereIsNoSurface() {
        var refused = assertThrows(
                IllegalArgumentException.class,
                () -> Ascent.from(
                        new double[] {1}, x -> new Ascent.Point(Double.NaN, new double[1], new double[1][1])));
        assertEquals("height NaN at the start: expected a finite one", refused.getMessage());
    }
}
