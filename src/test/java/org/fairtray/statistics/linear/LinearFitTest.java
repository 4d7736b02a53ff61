package org.fairtray.statistics.linear;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Cells;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class LinearFitTest {

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "linear-fit.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Doubles.class) double[] values,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            double residual,
            int df) {
        var fit = LinearFit.of(Models.of(rows), values);
        for (int j = 0; j < coefficients.length; j++) {
            double size = Math.max(1e-3, Math.abs(coefficients[j]));
            SUMMED.assertClose(coefficients[j], fit.estimates().coefficient(j), size);
        }
        SUMMED.assertClose(errors, Models.standardErrors(fit.estimates()));
        SUMMED.assertClose(residual, fit.residualSumOfSquares(), Math.max(1e-9, residual));
        assertEquals(df, fit.residualDf());
    }

    @Test
    void aFittedValueIsTheMeanOfItsGroup() {
        var model = Models.of(new double[][] {{1, 0}, {1, 0}, {1, 1}, {1, 1}});
        var fit = LinearFit.of(model, new double[] {1, 3, 10, 20});
        SUMMED.assertClose(2, fit.fitted(model, 1));
        SUMMED.assertClose(15, fit.fitted(model, 2));
    }

    @Test
    void refusesAnotherNumberOfValues() {
        var model = Models.of(new double[][] {{1}, {1}});
        var refused = assertThrows(IllegalArgumentException.class, () -> LinearFit.of(model, new double[] {1}));
        assertEquals("1 values for 2 rows", refused.getMessage());
    }
}
