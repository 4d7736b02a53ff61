package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Models;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class AdaptiveQuadratureTest {
    /** Slopes by differences leave the top a little uncertain. */
    private static final Tolerance TOP = new Tolerance(2e-5);

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "adaptive-quadrature.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 10_000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Groupings.class) List<Grouping> groupings,
            int points,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            double standardDeviation,
            double logLikelihood,
            double integral) {
        var model = Models.of(rows);
        double[] at = Arrays.copyOf(coefficients, coefficients.length + 1);
        at[coefficients.length] = standardDeviation;
        var likelihood = new QuadratureLikelihood(model, counts, groupings.get(0), GaussHermite.of(points));
        SUMMED.assertClose(logLikelihood, likelihood.value(at));
        var many = new QuadratureLikelihood(model, counts, groupings.get(0), GaussHermite.of(40));
        SUMMED.assertClose(integral, many.value(at));
        var fit = AdaptiveQuadrature.of(model, counts, groupings.get(0), points);
        assertTrue(fit.settled());
        SUMMED.assertClose(logLikelihood, fit.logLikelihood());
        for (int j = 0; j < coefficients.length; j++) {
            TOP.assertClose(coefficients[j], fit.coefficients()[j], 1);
        }
        TOP.assertClose(standardDeviation, fit.standardDeviation(), 1);
    }

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "adaptive-quadrature.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 10_000)
    void onePointIsTheLaplaceApproximation(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Groupings.class) List<Grouping> groupings) {
        var model = Models.of(rows);
        var laplace = new LaplaceLikelihood(model, new RandomIntercepts(counts.size(), groupings), counts);
        var quadrature = new QuadratureLikelihood(model, counts, groupings.get(0), GaussHermite.of(1));
        for (double deviation : new double[] {0, 0.2, 1.5, -0.7}) {
            double[] at = new double[model.width() + 1];
            Arrays.fill(at, 0.1);
            at[model.width()] = deviation;
            SUMMED.assertClose(laplace.value(at, new double[at.length]), quadrature.value(at));
        }
    }
}
