package org.fairtray.statistics.linear;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.fairtray.Cells;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Grid;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class VarianceComponentsFitTest {
    /** The likelihood is flat about its top: the reference's search ends within some 1e-6 of the variances. */
    private static final Tolerance OF_SEARCH = new Tolerance(1e-5);

    @ParameterizedTest(name = "{0} {1} weighted {3}")
    @CsvFileSource(resources = "variance-components.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            String data,
            @ConvertWith(Cells.Labels.class) List<String> terms,
            @ConvertWith(Cells.Labels.class) List<String> groupings,
            boolean weighted,
            @ConvertWith(Cells.Doubles.class) double[] variances,
            double likelihood) {
        var read = MixedData.of(data);
        var weights = new double[read.values().length];
        Arrays.fill(weights, 1);
        var fit = VarianceComponentsFit.of(
                read.model(terms),
                read.values(),
                read.groupings(groupings),
                weighted ? read.numbers("weight") : weights);
        assertTrue(fit.settled());
        OF_SEARCH.assertClose(variances, fit.variances());
        SUMMED.assertClose(likelihood, fit.restrictedLogLikelihood().orElseThrow());
    }

    /** R 4.2.2, lme4 1.1.31: fixef(f), sqrt(diag(vcov(f))) for rows and columns, weighted. */
    @Test
    void coefficientsAgreeWithTheReference() {
        var read = MixedData.of("rows-and-columns");
        var fit = VarianceComponentsFit.of(
                read.model(List.of("treatment")),
                read.values(),
                read.groupings(List.of("row", "column")),
                read.numbers("weight"));
        ITERATED.assertClose(
                new double[] {20.9300006673, 2.40859565838, 4.0442393113}, Models.coefficients(fit.estimates()));
        OF_SEARCH.assertClose(
                new double[] {2.05133917759, 0.847922760529, 0.868848351428}, Models.standardErrors(fit.estimates()));
    }

    @Test
    void withoutGroupingsItIsLeastSquares() {
        var model = Models.of(new double[][] {{1, 0}, {1, 0}, {1, 1}, {1, 1}, {1, 1}});
        var fit = VarianceComponentsFit.of(model, new double[] {1, 2, 4, 5, 9}, List.of());
        SUMMED.assertClose(new double[] {1.5, 4.5}, Models.coefficients(fit.estimates()));
        SUMMED.assertClose(14.5 / 3, fit.variances()[0]);
        SUMMED.assertClose(Math.sqrt(14.5 / 3 / 2), fit.estimates().standardError(0));
    }

    /** Mean squares between and within groups: (MS_b - MS_w) / size and MS_w. */
    @Test
    void balancedGroupsGiveTheMeanSquares() {
        double[] values = {1, 3, 6, 8, 11, 17};
        var fit = VarianceComponentsFit.of(base(6), values, List.of(Grouping.by(List.of(1, 1, 2, 2, 3, 3))));
        double within = (2 + 2 + 18) / 3.0;
        double between = 2 * (Math.pow(2 - 23 / 3.0, 2) + Math.pow(7 - 23 / 3.0, 2) + Math.pow(14 - 23 / 3.0, 2)) / 2;
        ITERATED.assertClose(new double[] {(between - within) / 2, within}, fit.variances());
    }

    @Test
    void aVarianceThatWouldBeNegativeIsZeroAndTold() {
        double[] values = {1, 9, 2, 8, 1.5, 9};
        var groups = Grouping.by(List.of(1, 1, 2, 2, 3, 3));
        var fit = VarianceComponentsFit.of(base(6), values, List.of(groups));
        var without = VarianceComponentsFit.of(base(6), values, List.of());
        assertTrue(fit.settled());
        assertEquals(List.of(0), fit.atZero());
        assertEquals(List.of(), fit.inestimable());
        assertEquals(0, fit.variances()[0]);
        SUMMED.assertClose(without.variances()[0], fit.variances()[1]);
        SUMMED.assertClose(
                without.restrictedLogLikelihood().orElseThrow(),
                fit.restrictedLogLikelihood().orElseThrow());
    }

    @Test
    void leavesOutWhatTheLayoutCannotTell() {
        double[] values = {1, 3, 6, 8, 11, 17};
        var pairs = Grouping.by(List.of(1, 1, 2, 2, 3, 3));
        var single = Grouping.by(List.of(1, 2, 3, 4, 5, 6));
        var fit = VarianceComponentsFit.of(base(6), values, List.of(Grouping.whole(6), pairs, single, pairs));
        var alone = VarianceComponentsFit.of(base(6), values, List.of(pairs));
        assertTrue(fit.settled());
        assertEquals(List.of(0, 2, 3), fit.inestimable());
        assertEquals(List.of(), fit.atZero());
        SUMMED.assertClose(alone.variances()[0], fit.variances()[1]);
        SUMMED.assertClose(alone.variances()[1], fit.variances()[4]);
    }

    @Test
    void groupsThatAreColumnsOfTheModelLeaveNothing() {
        var model = Models.of(new double[][] {{1, 0}, {1, 0}, {1, 1}, {1, 1}});
        var fit = VarianceComponentsFit.of(model, new double[] {1, 3, 6, 9}, List.of(Grouping.by(List.of(1, 1, 2, 2))));
        assertEquals(List.of(0), fit.inestimable());
        assertTrue(fit.settled());
        SUMMED.assertClose(3.25, fit.variances()[1]);
    }

    @Test
    void doesNotSettleWhereNothingIsLeft() {
        var groups = List.of(Grouping.by(List.of(1, 1, 2, 2)));
        var constant = VarianceComponentsFit.of(base(4), new double[] {5, 5, 5, 5}, groups);
        assertFalse(constant.settled());
        assertTrue(constant.kenwardRoger().isEmpty());
        assertTrue(constant.restrictedLogLikelihood().isEmpty());
        SUMMED.assertClose(5, constant.estimates().coefficient(0));
        var zero = VarianceComponentsFit.of(base(4), new double[4], groups);
        assertFalse(zero.settled());
        var one = VarianceComponentsFit.of(base(1), new double[] {3}, List.of(Grouping.whole(1)));
        assertFalse(one.settled());
        SUMMED.assertClose(3, one.estimates().coefficient(0));
    }

    @Test
    void doesNotSettleWhereGroupsExplainEverything() {
        double[] values = {1, 1, 4, 4, 6, 6};
        var fit = VarianceComponentsFit.of(base(6), values, List.of(Grouping.by(List.of(1, 1, 2, 2, 3, 3))));
        assertFalse(fit.settled());
        assertTrue(fit.kenwardRoger().isEmpty());
        ITERATED.assertClose(11 / 3.0, fit.estimates().coefficient(0));
    }

    @Test
    void keepsSmallDifferencesOfLargeValues() {
        double[] values = {1, 3, 6, 8, 11, 17};
        double[] large = Arrays.stream(values).map(v -> v + 1e9).toArray();
        var groups = List.of(Grouping.by(List.of(1, 1, 2, 2, 3, 3)));
        var fit = VarianceComponentsFit.of(base(6), large, groups);
        ITERATED.assertClose(VarianceComponentsFit.of(base(6), values, groups).variances(), fit.variances());
        CLOSED_FORM.assertClose(1e9 + 46 / 6.0, fit.estimates().coefficient(0));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void theOrderOfGroupingsAndValuesDoesNotMatter(long seed) {
        var grid = Grid.of(4, 3, 4).without(7, seed);
        var random = new Random(seed);
        double[] values = random.doubles(grid.size()).toArray();
        var fit =
                VarianceComponentsFit.of(base(grid.size()), values, List.of(grid.by(0), grid.by(0, 1), grid.by(0, 2)));
        var turned =
                VarianceComponentsFit.of(base(grid.size()), values, List.of(grid.by(0, 2), grid.by(0), grid.by(0, 1)));
        assertTrue(fit.settled());
        double total = Arrays.stream(fit.variances()).sum();
        int[] place = {1, 2, 0, 3};
        for (int k = 0; k < place.length; k++) {
            ITERATED.assertClose(fit.variances()[k], turned.variances()[place[k]], total);
        }
    }

    /** The fit must be at the top: nowhere near is the likelihood higher. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void noNeighbourIsMoreLikely(long seed) {
        var grid = Grid.of(5, 4, 3).without(9, seed);
        var random = new Random(seed);
        double[] values = random.doubles(grid.size()).toArray();
        var groupings = List.of(grid.by(0), grid.by(0, 1));
        var weights = random.doubles(grid.size(), 1, 5).toArray();
        var fit = VarianceComponentsFit.of(base(grid.size()), values, groupings, weights);
        double most = fit.restrictedLogLikelihood().orElseThrow();
        double shift = 1e-3 * Arrays.stream(fit.variances()).sum();
        for (int k = 0; k < 3; k++) {
            for (double sign : new double[] {-1, 1}) {
                var moved = fit.variances();
                moved[k] = Math.max(0, moved[k] + sign * shift);
                var there = RestrictedLikelihood.of(
                                new Components(groupings, weights), base(grid.size()), values, moved)
                        .orElseThrow();
                double log = -(there.minusTwoLog() + (grid.size() - 1) * Math.log(2 * Math.PI)) / 2;
                assertTrue(log <= most + 1e-12, log + " > " + most);
            }
        }
    }

    @Test
    void twoThousandValuesInFiveHundredStacksAreQuick() {
        var grid = Grid.of(10, 50, 4);
        var random = new Random(1);
        double[] ofStack = random.doubles(500).toArray();
        var stacks = grid.by(0, 1);
        int[] stack = stacks.of();
        double[] values = new double[2000];
        for (int i = 0; i < values.length; i++) {
            values[i] = ofStack[stack[i]] + random.nextDouble();
        }
        var rows = new double[2000][12];
        for (int i = 0; i < rows.length; i++) {
            rows[i][0] = 1;
            rows[i][i % 12] = 1;
        }
        var model = Models.of(rows);
        assertTimeout(Duration.ofSeconds(2), () -> {
            var fit = VarianceComponentsFit.of(model, values, List.of(grid.by(0), stacks));
            assertTrue(fit.kenwardRoger().isPresent());
        });
    }

    @Test
    void saysWhatDoesNotFit() {
        var groups = List.of(Grouping.whole(2));
        var refused = assertThrows(
                IllegalArgumentException.class, () -> VarianceComponentsFit.of(base(3), new double[3], groups));
        assertEquals("3 values, 3 weights, groupings of [2] for 3 rows", refused.getMessage());
        refused = assertThrows(
                IllegalArgumentException.class,
                () -> VarianceComponentsFit.of(base(2), new double[2], groups, new double[] {1, 0}));
        assertEquals("weights [1.0, 0.0]: expected finite numbers above 0", refused.getMessage());
    }

    private static ModelMatrix base(int n) {
        var ones = new double[n];
        Arrays.fill(ones, 1);
        return ModelMatrix.of(List.of(new ModelMatrix.Column("base", ones)));
    }
}
