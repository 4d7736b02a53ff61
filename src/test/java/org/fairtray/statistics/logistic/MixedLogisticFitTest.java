package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.ITERATED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Models;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class MixedLogisticFitTest {
    /** Second derivatives by differences on both sides lose half of the digits. */
    private static final Tolerance DIFFERENCES = new Tolerance(1e-5);

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "mixed-logistic-fit.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 20_000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Groupings.class) List<Grouping> groupings,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            @ConvertWith(Cells.Doubles.class) double[] deviations,
            double logLikelihood) {
        var fit = MixedLogisticFit.of(Models.of(rows), counts, groupings);
        assertTrue(fit.settled(), () -> "did not come to rest in " + fit.steps() + " steps");
        new Tolerance(1e-9).assertClose(logLikelihood, fit.logLikelihood());
        for (int g = 0; g < deviations.length; g++) {
            assertEquals(deviations[g] == 0, fit.atZero(g));
            ITERATED.assertClose(deviations[g], fit.standardDeviations()[g], 1);
        }
        for (int j = 0; j < coefficients.length; j++) {
            ITERATED.assertClose(coefficients[j], fit.estimates().coefficient(j), 1);
        }
        DIFFERENCES.assertClose(errors, Models.standardErrors(fit.estimates()));
    }
}
