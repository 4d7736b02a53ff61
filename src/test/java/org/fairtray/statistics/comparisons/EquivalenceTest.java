package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Optional;
import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class EquivalenceTest {
    /** The t quantile is found by steps. */
    private static final Tolerance OF_QUANTILE = new Tolerance(1e-8);

    @ParameterizedTest
    @CsvFileSource(resources = "equivalence.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            double estimate,
            double error,
            double df,
            double margin,
            double alpha,
            double notBelow,
            double notAbove,
            double low,
            double high) {
        var tested = Equivalence.of(estimate, error, df, margin, alpha).orElseThrow();
        SUMMED.assertClose(notBelow, tested.pNotBelow());
        SUMMED.assertClose(notAbove, tested.pNotAbove());
        OF_QUANTILE.assertClose(low, tested.interval().low());
        OF_QUANTILE.assertClose(high, tested.interval().high());
        assertEquals(Math.max(notBelow, notAbove) < alpha, tested.equivalent());
        assertEquals(notBelow < alpha, tested.notBelow());
        assertEquals(tested.interval().inside(margin), tested.equivalent());
        SUMMED.assertClose(Math.max(notBelow, notAbove), tested.p());
    }

    @Test
    void tellsNothingWithoutVariance() {
        assertEquals(Optional.empty(), Equivalence.of(0, 0, 5, 0.1, 0.05));
    }

    @Test
    void saysWhatIsOutOfRange() {
        var refused = assertThrows(IllegalArgumentException.class, () -> Equivalence.of(0, 1, 5, 0, 0.05));
        assertEquals(
                "estimate 0.0, standard error 1.0, df 5.0, margin 0.0, alpha 0.05: "
                        + "expected a number, 0 or more, above 0, above 0, between 0 and 0.5",
                refused.getMessage());
    }
}
