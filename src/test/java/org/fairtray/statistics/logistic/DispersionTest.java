package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.Cells;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grid;
import org.fairtray.statistics.strata.Decomposition;
import org.fairtray.statistics.strata.Strata;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class DispersionTest {

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "dispersion.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            @ConvertWith(Cells.Doubles.class) double[] rates,
            double expected) {
        CLOSED_FORM.assertClose(expected, Dispersion.pearson(counts, rates));
    }

    @Test
    void aCountThatObeysARateOfNoneOrAllAddsNothing() {
        var counts = List.of(new Count(0, 50), new Count(20, 20), new Count(20, 40));
        assertEquals(0, Dispersion.pearson(counts, new double[] {0, 1, 0.5}));
    }

    @Test
    void aCountThatContradictsARateOfNoneIsInfinitelyFar() {
        assertEquals(Double.POSITIVE_INFINITY, Dispersion.pearson(List.of(new Count(1, 50)), new double[] {0}));
    }

    @Test
    void refusesRatesThatAreNone() {
        var counts = List.of(new Count(1, 2));
        assertThrows(IllegalArgumentException.class, () -> Dispersion.pearson(counts, new double[] {1.01}));
        assertThrows(IllegalArgumentException.class, () -> Dispersion.pearson(counts, new double[] {Double.NaN}));
        var refused =
                assertThrows(IllegalArgumentException.class, () -> Dispersion.pearson(counts, new double[] {0.5, 0.5}));
        assertEquals("1 counts, 2 rates, 2 groups of 2", refused.getMessage());
    }

    /**
     * With equal trays and one rate p for all, X2 over the groups of a stratum is the sum of squares of y/n between
     * them times n/(p(1-p)), so its part of a stratum is the mean square there over the binomial variance, exactly.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void byStratumIsTheMeanSquareOverTheBinomialVariance(long seed) {
        var grid = Grid.of(2, 3, 4);
        var strata = Strata.of(List.of(grid.by(0), grid.by(0, 1), grid.by(0, 1, 2)));
        var counts =
                new Random(seed).ints(24, 5, 46).mapToObj(y -> new Count(y, 50)).toList();
        double p = counts.stream().mapToDouble(Count::rate).average().orElseThrow();
        double[] values = counts.stream().mapToDouble(Count::rate).toArray();
        var rates = new double[24];
        Arrays.fill(rates, p);
        var tables = Decomposition.of(strata, List.of()).analyse(values);
        var df = IntStream.range(0, 3).map(strata::dimension).boxed().toList();
        var dispersions = Dispersion.byStratum(counts, rates, strata, df);
        for (int s = 0; s < 3; s++) {
            double meanSquare = tables.get(s).residualSumOfSquares() / df.get(s);
            SUMMED.assertClose(meanSquare / (p * (1 - p) / 50), dispersions.get(s));
        }
    }

    @Test
    void withoutDegreesOfFreedomThereIsNone() {
        var grid = Grid.of(2, 2);
        var strata = Strata.of(List.of(grid.by(0), grid.by(0, 1)));
        var counts = List.of(new Count(5, 10), new Count(5, 10), new Count(6, 10), new Count(4, 10));
        var dispersions = Dispersion.byStratum(counts, new double[] {0.5, 0.5, 0.5, 0.5}, strata, List.of(0, 2));
        assertNull(dispersions.get(0));
        assertTrue(dispersions.get(1) > 0);
    }
}
