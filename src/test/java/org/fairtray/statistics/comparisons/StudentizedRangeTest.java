package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Tolerance;
import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class StudentizedRangeTest {
    /** Nine decimals are written down. */
    private static final Tolerance NINE_DECIMALS = new Tolerance(6e-10);

    @ParameterizedTest
    @CsvFileSource(resources = "studentized-range.csv", useHeadersInDisplayName = true)
    void tailsAgreeWithTheReference(int means, double df, double q, double upper) {
        NINE_DECIMALS.assertClose(upper, StudentizedRange.of(means, df).p(q), 1);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "studentized-range-quantiles.csv", useHeadersInDisplayName = true)
    void quantilesAgreeWithTheReference(int means, double df, double alpha, double q) {
        ITERATED.assertClose(q, StudentizedRange.of(means, df).quantile(1 - alpha));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 1.3, 2, 2.5, 3.7, 10, 1000, 1e6})
    void twoMeansGiveStudentsT(double df) {
        for (double t : new double[] {0.3, 1, 2, 4, 12, 60}) {
            SUMMED.assertClose(Tail.tTwoSided(t, df), StudentizedRange.of(2, df).p(t * Math.sqrt(2)), 1);
        }
    }

    @Test
    void endsAreExact() {
        var range = StudentizedRange.of(3, 5);
        assertEquals(1, range.p(0));
        assertEquals(0, range.p(Double.POSITIVE_INFINITY));
        ITERATED.assertClose(0.3, range.p(range.quantile(0.7)));
    }

    @Test
    void refusesWhatIsOutOfRange() {
        var refused = assertThrows(IllegalArgumentException.class, () -> StudentizedRange.of(1, 5));
        assertEquals("1 means: expected 2 or more", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> StudentizedRange.of(2, 0));
        assertEquals("0.0 degrees of freedom: expected a number above 0", refused.getMessage());
        var range = StudentizedRange.of(3, 5);
        refused = assertThrows(IllegalArgumentException.class, () -> range.quantile(1));
        assertEquals("confidence 1.0: expected a number between 0 and 1", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> range.p(Double.NaN));
        assertEquals("statistic NaN: expected a number", refused.getMessage());
    }
}
