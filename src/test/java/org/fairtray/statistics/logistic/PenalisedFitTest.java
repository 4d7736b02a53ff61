package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.fairtray.Cells;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class PenalisedFitTest {

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "penalised.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 10_000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Rows.class) double[][] penalty,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            double penalisedLogLikelihood) {
        var fit = PenalisedFit.restricted(Models.of(rows), Models.of(penalty), counts);
        assertTrue(fit.settled(), () -> "did not come to rest in " + fit.steps() + " steps");
        for (int j = 0; j < coefficients.length; j++) {
            ITERATED.assertClose(
                    coefficients[j], fit.estimates().coefficient(j), Math.max(1e-3, Math.abs(coefficients[j])));
        }
        ITERATED.assertClose(errors, Models.standardErrors(fit.estimates()));
        SUMMED.assertClose(penalisedLogLikelihood, fit.penalisedLogLikelihood());
    }

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "penalised-interval.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 10_000)
    void intervalsAgreeWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Doubles.class) double[] weights,
            double level,
            double low,
            double high) {
        var interval = PenalisedFit.of(Models.of(rows), counts).interval(weights, level);
        ITERATED.assertClose(low, interval.low());
        ITERATED.assertClose(high, interval.high());
    }

    /** For one rate the penalty is half a success and half a failure more: (y + 1/2) / (m + 1). */
    @ParameterizedTest
    @CsvSource({"0, 1", "1, 1", "0, 50", "50, 50", "13, 50", "0, 1000000"})
    void oneRateHasHalfASuccessAndHalfAFailureMore(long y, long m) {
        var fit = PenalisedFit.of(Models.of(new double[][] {{1}}), List.of(new Count(y, m)));
        assertTrue(fit.settled());
        SUMMED.assertClose((y + 0.5) / (m + 1), fit.rates()[0]);
    }

    /** A combination held and stretched has its interval stretched. */
    @Test
    void anIntervalOfThreeTimesIsThreeTimesTheInterval() {
        var model = Models.of(new double[][] {{1, 0}, {1, 0}, {1, 1}, {1, 1}});
        var fit = PenalisedFit.of(
                model, List.of(new Count(0, 50), new Count(0, 40), new Count(9, 50), new Count(20, 50)));
        var once = fit.interval(new double[] {1, 2}, 0.95);
        var thrice = fit.interval(new double[] {-3, -6}, 0.95);
        ITERATED.assertClose(-3 * once.high(), thrice.low());
        ITERATED.assertClose(-3 * once.low(), thrice.high());
    }

    @Test
    void refusesWeightsOfNothing() {
        var fit = PenalisedFit.of(Models.of(new double[][] {{1}}), List.of(new Count(1, 2)));
        var refused = assertThrows(IllegalArgumentException.class, () -> fit.interval(new double[] {0}, 0.95));
        assertEquals("weights [0.0]: expected 1, not all 0", refused.getMessage());
        assertThrows(IllegalArgumentException.class, () -> fit.interval(new double[] {1, 1}, 0.95));
    }

    @Test
    void refusesOtherLengths() {
        var one = Models.of(new double[][] {{1}});
        var two = Models.of(new double[][] {{1}, {1}});
        var refused = assertThrows(
                IllegalArgumentException.class, () -> PenalisedFit.restricted(one, two, List.of(new Count(1, 2))));
        assertEquals(
                "1 counts for 1 rows and a penalty of 2: expected as many, each with trials", refused.getMessage());
    }
}
