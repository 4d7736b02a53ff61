package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import org.fairtray.Cells;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class BetaBinomialFitTest {
    private static final double[][] TWO_BY_TWO = {{1, 0}, {1, 0}, {1, 1}, {1, 1}};

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(
            resources = "beta-binomial.csv",
            useHeadersInDisplayName = true,
            maxCharsPerColumn = 10_000,
            nullValues = "none")
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            double correlation,
            Double correlationError,
            double logLikelihood,
            double low,
            double high) {
        var fit = BetaBinomialFit.of(Models.of(rows), counts);
        assertTrue(fit.settled(), () -> "did not come to rest in " + fit.steps() + " steps");
        var estimates = fit.estimates().orElseThrow();
        for (int j = 0; j < coefficients.length; j++) {
            ITERATED.assertClose(coefficients[j], estimates.coefficient(j), Math.max(1e-3, Math.abs(coefficients[j])));
        }
        ITERATED.assertClose(errors, Models.standardErrors(estimates));
        ITERATED.assertClose(correlation, fit.correlation());
        assertEquals(correlationError == null, fit.atZero());
        assertEquals(correlationError == null, fit.correlationStandardError().isEmpty());
        fit.correlationStandardError().ifPresent(found -> ITERATED.assertClose(correlationError, found));
        SUMMED.assertClose(logLikelihood, fit.logLikelihood());
        var interval = fit.correlationInterval(0.95);
        ITERATED.assertClose(low, interval.low());
        ITERATED.assertClose(high, interval.high());
    }

    /** Where rows are no more alike than chance makes them, what is left is the plain fit. */
    @Test
    void withoutCorrelationItIsTheBinomialFit() {
        var counts = List.of(new Count(20, 50), new Count(20, 50), new Count(31, 50), new Count(29, 50));
        var fit = BetaBinomialFit.of(Models.of(TWO_BY_TWO), counts);
        var plain = LogisticFit.of(Models.of(TWO_BY_TWO), counts);
        assertTrue(fit.atZero() && fit.settled());
        assertEquals(0, fit.correlation());
        assertEquals(0, fit.correlationInterval(0.99).low());
        SUMMED.assertClose(plain.logLikelihood(), fit.logLikelihood());
        var estimates = fit.estimates().orElseThrow();
        SUMMED.assertClose(Models.coefficients(plain.estimates()), Models.coefficients(estimates));
        SUMMED.assertClose(Models.standardErrors(plain.estimates()), Models.standardErrors(estimates));
    }

    /** Of two counts of m, one rate, the likelihood is largest at 1/2 and by arithmetic of the rest. */
    @Test
    void aHalfIsAHalfWhateverTheCorrelation() {
        var fit = BetaBinomialFit.of(
                Models.of(new double[][] {{1}, {1}}), List.of(new Count(10, 100), new Count(90, 100)));
        assertTrue(fit.settled() && fit.correlation() > 0.3);
        SUMMED.assertClose(0.5, fit.rates()[1]);
    }

    @Test
    void theOrderOfRowsChangesNothing() {
        var counts = List.of(new Count(3, 50), new Count(20, 50), new Count(31, 60), new Count(12, 40));
        var backwards = new java.util.ArrayList<>(counts);
        Collections.reverse(backwards);
        var rows = TWO_BY_TWO.clone();
        Collections.reverse(java.util.Arrays.asList(rows));
        var one = BetaBinomialFit.of(Models.of(TWO_BY_TWO), counts);
        var other = BetaBinomialFit.of(Models.of(rows), backwards);
        SUMMED.assertClose(one.correlation(), other.correlation());
        CLOSED_FORM.assertClose(one.logLikelihood(), other.logLikelihood());
    }

    @Test
    void whereEstimatesAreInfiniteItDoesNotPretend() {
        var none = BetaBinomialFit.of(
                Models.of(TWO_BY_TWO),
                List.of(new Count(0, 50), new Count(0, 50), new Count(9, 50), new Count(20, 50)));
        assertFalse(none.settled());
        assertTrue(Double.isFinite(none.logLikelihood()));
        var nothing = BetaBinomialFit.of(Models.of(TWO_BY_TWO), Collections.nCopies(4, new Count(0, 50)));
        assertFalse(nothing.settled());
    }

    @Test
    void whereEveryRowIsAllOrNoneTheCorrelationRunsToOne() {
        var fit = BetaBinomialFit.of(
                Models.of(TWO_BY_TWO),
                List.of(new Count(0, 50), new Count(50, 50), new Count(50, 50), new Count(0, 50)));
        assertFalse(fit.settled());
        assertTrue(fit.correlation() > 0.999);
        assertEquals(1, fit.correlationInterval(0.95).high());
    }

    @Test
    void oneRowAloneSaysNothingOfCorrelation() {
        var fit = BetaBinomialFit.of(Models.of(new double[][] {{1}}), List.of(new Count(7, 50)));
        assertTrue(fit.atZero() && fit.settled());
        SUMMED.assertClose(0.14, fit.rates()[0]);
    }

    /** Rows of one seed each hold no pairs: every correlation fits them alike. */
    @Test
    void singleSeedsSayNothingOfCorrelation() {
        var fit = BetaBinomialFit.of(
                Models.of(TWO_BY_TWO), List.of(new Count(0, 1), new Count(1, 1), new Count(1, 1), new Count(0, 1)));
        assertTrue(fit.atZero());
        assertEquals(0, fit.correlationInterval(0.95).low());
        assertEquals(1, fit.correlationInterval(0.95).high());
    }

    @Test
    void refusesCountsWithoutTrials() {
        var model = Models.of(new double[][] {{1}});
        assertThrows(IllegalArgumentException.class, () -> BetaBinomialFit.of(model, List.of(new Count(0, 0))));
    }
}
