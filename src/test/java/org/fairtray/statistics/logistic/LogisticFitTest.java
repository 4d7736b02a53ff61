package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
import org.junit.jupiter.params.provider.ValueSource;

class LogisticFitTest {

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "logistic-fit.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 10_000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            double deviance,
            double logLikelihood,
            double pearson,
            int df) {
        var fit = LogisticFit.of(Models.of(rows), counts);
        assertTrue(fit.settled(), () -> "did not come to rest in " + fit.steps() + " steps");
        for (int j = 0; j < coefficients.length; j++) {
            double size = Math.max(1e-3, Math.abs(coefficients[j]));
            ITERATED.assertClose(coefficients[j], fit.estimates().coefficient(j), size);
        }
        ITERATED.assertClose(errors, Models.standardErrors(fit.estimates()));
        ITERATED.assertClose(deviance, fit.deviance(), Math.max(1, deviance));
        ITERATED.assertClose(logLikelihood, fit.logLikelihood());
        ITERATED.assertClose(pearson, Dispersion.pearson(counts, fit.rates()), Math.max(1, pearson));
        assertEquals(df, fit.residualDf());
    }

    /** At the maximum the fitted numbers add up to the counted ones over every column. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void fittedNumbersAddUpOverEveryColumn(long seed) {
        var random = new java.util.Random(seed);
        var rows = new double[30][];
        var counts = new java.util.ArrayList<Count>();
        for (int i = 0; i < 30; i++) {
            rows[i] = new double[] {1, i % 2, i % 3 == 0 ? 1 : 0, random.nextGaussian()};
            int trials = 1 + random.nextInt(100);
            counts.add(new Count(random.nextInt(trials + 1), trials));
        }
        var fit = LogisticFit.of(Models.of(rows), counts);
        for (int j = 0; j < 4; j++) {
            double counted = 0;
            double fitted = 0;
            for (int i = 0; i < 30; i++) {
                counted += rows[i][j] * counts.get(i).successes();
                fitted += rows[i][j] * counts.get(i).trials() * fit.fittedRate(i);
            }
            ITERATED.assertClose(counted, fitted, 100);
        }
    }

    @Test
    void withoutAFiniteEstimateItDoesNotPretendToOne() {
        var model = Models.of(new double[][] {{1, 0}, {1, 1}});
        var fit = LogisticFit.of(model, List.of(new Count(5, 10), new Count(0, 10)));
        assertTrue(fit.estimates().coefficient(1) < -10);
        assertTrue(fit.fittedRate(1) < 1e-6);
        assertTrue(Double.isFinite(fit.deviance()) && Double.isFinite(fit.logLikelihood()));
    }

    @Test
    void oneRateForAllIsTheOverallRate() {
        var fit = LogisticFit.of(
                Models.of(new double[][] {{1}, {1}, {1}}),
                List.of(new Count(1, 10), new Count(0, 5), new Count(8, 15)));
        SUMMED.assertClose(0.3, fit.fittedRate(2));
        SUMMED.assertClose(Math.log(3 / 7.0), fit.estimates().coefficient(0));
        SUMMED.assertClose(1 / Math.sqrt(30 * 0.3 * 0.7), fit.estimates().standardError(0));
    }

    @Test
    void ratesAndLogOddsBelongTogether() {
        CLOSED_FORM.assertClose(0.5, LogisticFit.rate(0.0));
        CLOSED_FORM.assertClose(0.75, LogisticFit.rate(Math.log(3)));
        assertEquals(0, LogisticFit.rate(-1e9));
        assertEquals(1, LogisticFit.rate(1e9));
        CLOSED_FORM.assertClose(Math.exp(-300), LogisticFit.rate(-300.0));
    }

    @Test
    void refusesCountsWithoutTrialsAndOtherLengths() {
        var model = Models.of(new double[][] {{1}, {1}});
        var one = List.of(new Count(1, 2));
        var empty = List.of(new Count(1, 2), new Count(0, 0));
        assertThrows(IllegalArgumentException.class, () -> LogisticFit.of(model, empty));
        var refused = assertThrows(IllegalArgumentException.class, () -> LogisticFit.of(model, one));
        assertEquals("1 counts for 2 rows: expected as many, each with trials", refused.getMessage());
        assertFalse(LogisticFit.of(model, List.of(new Count(1, 2), new Count(1, 2)))
                        .steps()
                > 5);
    }
}
