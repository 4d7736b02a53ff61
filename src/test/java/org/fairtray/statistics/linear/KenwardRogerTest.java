package org.fairtray.statistics.linear;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class KenwardRogerTest {
    /** The reference's variances are within some 1e-6 of theirs; p in a far tail moves ten times as much. */
    private static final Tolerance OF_SEARCH = new Tolerance(1e-5);

    private static final Tolerance TAIL = new Tolerance(1e-4);

    private static KenwardRoger of(String data, List<String> terms, List<String> groupings) {
        var read = MixedData.of(data);
        return VarianceComponentsFit.of(read.model(terms), read.values(), read.groupings(groupings))
                .kenwardRoger()
                .orElseThrow();
    }

    @ParameterizedTest(name = "{0} {1}: {3}")
    @CsvFileSource(resources = "kenward-roger.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            String data,
            @ConvertWith(Cells.Labels.class) List<String> terms,
            @ConvertWith(Cells.Labels.class) List<String> groupings,
            String term,
            double f,
            int df,
            double denominatorDf,
            Double p,
            Double adjusted) {
        var model = MixedData.of(data).model(terms);
        var kenwardRoger = of(data, terms, groupings);
        var own = MixedData.columns(model, term);
        var test = kenwardRoger
                .marginalTest(own, MixedData.containing(model, term))
                .orElseThrow();
        OF_SEARCH.assertClose(f, test.f());
        assertEquals(df, test.df());
        OF_SEARCH.assertClose(denominatorDf, test.denominatorDf());
        if (p != null) {
            TAIL.assertClose(p, test.p());
        }
        if (adjusted != null) {
            var unit = new double[1][model.width()];
            unit[0][own.get(0)] = 1;
            OF_SEARCH.assertClose(adjusted, kenwardRoger.covariance(unit)[0][0]);
        }
    }

    /** R 4.2.2, lme4 1.1.31, pbkrtest 0.5.2: attr(vcovAdj(f), "W") of the thirteen maize lines. */
    @Test
    void varianceCovarianceAgreesWithTheReference() {
        double[][] covariance =
                of("cochran-bib", List.of("line"), List.of("location")).varianceCovariance();
        OF_SEARCH.assertClose(new double[] {27.5375951448917, -9.05672060265066}, covariance[0]);
        OF_SEARCH.assertClose(new double[] {-9.05672060265066, 29.4343419586146}, covariance[1]);
    }

    /** R 4.2.2, lme4 1.1.31, pbkrtest 0.5.2: KRmodcomp(f, matrix(c(0, -1, 1), 1)) of rows and columns. */
    @Test
    void oneCombinationAgreesWithTheReference() {
        var kenwardRoger = of("rows-and-columns", List.of("treatment"), List.of("row", "column"));
        double[] row = {0, -1, 1};
        var estimate = kenwardRoger.estimate(row, 0.95);
        OF_SEARCH.assertClose(4.2278070961 - 2.2931721337, estimate.estimate());
        OF_SEARCH.assertClose(18.6824749385, estimate.df());
        OF_SEARCH.assertClose(4.55977669598, Math.pow(estimate.estimate() / estimate.standardError(), 2));
        TAIL.assertClose(0.0462002737983, estimate.p());
        var test = kenwardRoger.test(new double[][] {row}).orElseThrow();
        SUMMED.assertClose(test.p(), estimate.p());
        SUMMED.assertClose(test.denominatorDf(), estimate.df());
    }

    /** t(0.975, 3) = 3.182446305; a mean of five with residual mean square 14.5/3. */
    @Test
    void leastSquaresHasItsResidualDegreesOfFreedom() {
        var model = Models.of(new double[][] {{1, 0}, {1, 0}, {1, 1}, {1, 1}, {1, 1}});
        var kenwardRoger = VarianceComponentsFit.of(model, new double[] {1, 2, 4, 5, 9}, List.of())
                .kenwardRoger()
                .orElseThrow();
        var estimate = kenwardRoger.estimate(new double[] {0, 1}, 0.95);
        double error = Math.sqrt(14.5 / 3 * 5 / 6);
        SUMMED.assertClose(3, estimate.df());
        SUMMED.assertClose(error, estimate.standardError());
        ITERATED.assertClose(4.5 - 3.182446305 * error, estimate.low());
        ITERATED.assertClose(4.5 + 3.182446305 * error, estimate.high());
        var test = kenwardRoger.test(new double[][] {{1, 0}, {0, 1}}).orElseThrow();
        ITERATED.assertClose(3, test.denominatorDf());
        ITERATED.assertClose((2 * 1.5 * 1.5 + 3 * 36) / 2 / (14.5 / 3), test.f());
    }

    /**
     * A variance at 0 was estimated, too. R 4.2.2, pbkrtest 0.5.2: {@code KRmodcomp(lmer(y ~ x + z + (1 | g)), ...)} for
     * each of x and z.
     */
    @Test
    void aVarianceOfZeroIsCountedAsEstimated() {
        var fit = VarianceComponentsFit.of(LessAlike.MODEL, LessAlike.VALUES, List.of(LessAlike.GROUPS));
        assertEquals(List.of(0), fit.atZero());
        var tests = fit.kenwardRoger().orElseThrow();
        var x = tests.test(new double[][] {{0, 1, 0}}).orElseThrow();
        ITERATED.assertClose(new double[] {0.393783479077, 12.0190755686}, x.f(), x.denominatorDf());
        var z = tests.test(new double[][] {{0, 0, 1}}).orElseThrow();
        ITERATED.assertClose(new double[] {0.121225480162, 3.72617021227}, z.f(), z.denominatorDf());
        var without = fit.kenwardRogerWithoutZeros()
                .orElseThrow()
                .test(new double[][] {{0, 0, 1}})
                .orElseThrow();
        var least = LinearFit.of(LessAlike.MODEL, LessAlike.VALUES);
        double t = least.estimates().coefficient(2)
                / Math.sqrt(least.estimates().variance(new double[] {0, 0, 1})
                        * least.residualSumOfSquares()
                        / least.residualDf());
        SUMMED.assertClose(new double[] {t * t, 14}, without.f(), without.denominatorDf());
    }

    @Test
    void refusesRowsThatSayTheSame() {
        var kenwardRoger = of("rows-and-columns", List.of("treatment"), List.of("row", "column"));
        var refused = assertThrows(
                IllegalArgumentException.class, () -> kenwardRoger.test(new double[][] {{0, 1, 0}, {0, 2, 0}}));
        assertEquals(
                "rows [[0.0, 1.0, 0.0], [0.0, 2.0, 0.0]]: expected one or more, independent", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> kenwardRoger.test(new double[0][]));
        assertEquals("rows []: expected one or more, independent", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> kenwardRoger.estimate(new double[3], 0.95));
        assertEquals("weights [0.0, 0.0, 0.0]: expected some that are not 0", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> kenwardRoger.estimate(new double[2], 0.95));
        assertEquals("rows [[0.0, 0.0]]: expected 3 weights each", refused.getMessage());
    }
}
