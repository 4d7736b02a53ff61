package org.fairtray.statistics.time;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.fairtray.Cells;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Models;
import org.fairtray.statistics.logistic.Dispersion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class HazardFitTest {
    /** Two days, two treatments, two trays each; the columns are the days and the second treatment. */
    private static final double[][] ROWS = {
        {1, 0, 0}, {1, 0, 0}, {1, 0, 1}, {1, 0, 1}, {0, 1, 0}, {0, 1, 0}, {0, 1, 1}, {0, 1, 1}
    };

    private static final Grouping TRAYS = Grouping.by(List.of(1, 2, 3, 4, 1, 2, 3, 4));

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(
            resources = "hazard.csv",
            useHeadersInDisplayName = true,
            maxCharsPerColumn = 10_000,
            nullValues = "none")
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Labels.class) List<String> clusters,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            double logLikelihood,
            @ConvertWith(Cells.Doubles.class) double[] scaled,
            @ConvertWith(Cells.Doubles.class) double[] unbiased,
            double pearson) {
        var fit = HazardFit.of(Models.of(rows), counts);
        assertTrue(fit.settled(), () -> "did not come to rest in " + fit.steps() + " steps");
        var estimates = fit.estimates().orElseThrow();
        ITERATED.assertClose(coefficients, Models.coefficients(estimates));
        ITERATED.assertClose(errors, Models.standardErrors(estimates));
        SUMMED.assertClose(logLikelihood, fit.logLikelihood());
        var groups = Grouping.by(clusters);
        ITERATED.assertClose(scaled, Models.standardErrors(fit.clustered(groups).orElseThrow()));
        ITERATED.assertClose(
                unbiased, Models.standardErrors(fit.clusteredUnbiased(groups).orElseThrow()));
        ITERATED.assertClose(pearson, fit.pearson(groups));
        assertEquals(rows.length - rows[0].length, fit.residualDegreesOfFreedom());
    }

    /** With a coefficient for every row the fitted share is the share found. */
    @Test
    void aCoefficientForEachRowFitsExactly() {
        var counts = List.of(new Count(3, 50), new Count(40, 47));
        var fit = HazardFit.of(Models.of(new double[][] {{1, 0}, {0, 1}}), counts);
        SUMMED.assertClose(new double[] {3 / 50.0, 40 / 47.0}, fit.rates());
        var b = fit.estimates().orElseThrow();
        SUMMED.assertClose(Math.log(-Math.log(47 / 50.0)), b.coefficient(0));
        assertTrue(fit.clusteredUnbiased(Grouping.by(List.of(1, 2))).isEmpty());
        assertTrue(fit.clustered(Grouping.by(List.of(1, 2))).isEmpty());
    }

    /** Rows as their own clusters: the plain Pearson statistic. */
    @Test
    void pearsonOfSingleRowsIsPearsons() {
        var counts = List.of(
                new Count(3, 50),
                new Count(5, 50),
                new Count(9, 50),
                new Count(12, 50),
                new Count(30, 47),
                new Count(20, 45),
                new Count(30, 41),
                new Count(31, 38));
        var fit = HazardFit.of(Models.of(ROWS), counts);
        double plain = Dispersion.pearson(counts, fit.rates());
        SUMMED.assertClose(plain, fit.pearson(Grouping.by(List.of(1, 2, 3, 4, 5, 6, 7, 8))));
        assertFalse(Math.abs(plain - fit.pearson(TRAYS)) < 1e-3);
    }

    @Test
    void aTreatmentWithoutAnyEventHasNoFiniteHazard() {
        var counts = List.of(
                new Count(3, 50),
                new Count(5, 50),
                new Count(0, 50),
                new Count(0, 50),
                new Count(30, 47),
                new Count(20, 45),
                new Count(0, 50),
                new Count(0, 50));
        var fit = HazardFit.of(Models.of(ROWS), counts);
        assertFalse(fit.settled());
        assertEquals(List.of(2, 3, 6, 7), fit.separated());
        assertTrue(
                fit.clustered(TRAYS).isEmpty() && fit.clusteredUnbiased(TRAYS).isEmpty());
        assertTrue(Double.isFinite(fit.logLikelihood()));
    }

    @Test
    void aReadingAtWhichAllThatWereLeftCameUpIsSaid() {
        var counts = List.of(new Count(25, 50), new Count(20, 50), new Count(25, 25), new Count(30, 30));
        var fit = HazardFit.of(Models.of(new double[][] {{1, 0}, {1, 0}, {0, 1}, {0, 1}}), counts);
        assertFalse(fit.settled());
        assertEquals(List.of(2, 3), fit.separated());
    }

    /** A model that fits very badly, on which steps by the expected information go to and fro. */
    @Test
    void comesToRestThoughTheModelFitsBadly() {
        double[][] rows = {
            {1, 1, 0, 1}, {1, 1, 1, 0}, {1, 1, 0, 1}, {1, 0, 1, 1}, {1, 0, 1, 0}, {1, 1, 0, 1}, {1, 0, 0, 0},
            {1, 0, 1, 1}, {1, 1, 0, 0}, {1, 0, 0, 1}, {1, 0, 0, 1}, {1, 0, 0, 0}, {1, 1, 1, 1}, {1, 1, 0, 1}
        };
        var counts = List.of(
                new Count(125821, 184139),
                new Count(1535, 5176),
                new Count(0, 22938),
                new Count(109042, 167979),
                new Count(3869, 16433),
                new Count(96729, 152339),
                new Count(1075, 1790),
                new Count(107392, 116488),
                new Count(38794, 58140),
                new Count(114189, 114189),
                new Count(75415, 75415),
                new Count(44124, 44124),
                new Count(0, 150083),
                new Count(17845, 160436));
        assertTrue(HazardFit.of(Models.of(rows), counts).settled());
    }

    @Test
    void oneClusterSaysNothingOfVariation() {
        var fit = HazardFit.of(Models.of(new double[][] {{1}, {1}}), List.of(new Count(3, 50), new Count(9, 47)));
        assertTrue(fit.clustered(Grouping.whole(2)).isEmpty());
        assertTrue(fit.clusteredUnbiased(Grouping.whole(2)).isEmpty());
    }

    @Test
    void refusesRowsWithNoneAtRisk() {
        var model = Models.of(new double[][] {{1}, {1}});
        var refused = assertThrows(
                IllegalArgumentException.class, () -> HazardFit.of(model, List.of(new Count(1, 2), new Count(0, 0))));
        assertEquals("2 counts for 2 rows: expected as many, each with some at risk", refused.getMessage());
    }
}
