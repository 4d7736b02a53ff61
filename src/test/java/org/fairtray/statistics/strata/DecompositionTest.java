package org.fairtray.statistics.strata;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.fairtray.Cells;
import org.fairtray.statistics.Grid;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecompositionTest {
    /** Catalogues print three decimals, and round a final five either way. */
    private static final double ROUNDED = 0.00051;

    private static ModelTerm term(String factors, Grouping cells, int df) {
        return new ModelTerm(Set.of(factors.split("", -1)), cells, df);
    }

    private static Strata single(int n) {
        return Strata.of(List.of(Grouping.by(IntStream.range(0, n).boxed().toList())));
    }

    private static Grouping cells(List<?> one, List<?> other) {
        return Grouping.by(IntStream.range(0, one.size())
                .mapToObj(i -> List.of(one.get(i), other.get(i)))
                .toList());
    }

    private static Decomposition.Row row(Decomposition.Table table, int term) {
        return table.rows().stream()
                .filter(r -> r.part().term() == term)
                .findFirst()
                .orElseThrow();
    }

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "two-way.csv", useHeadersInDisplayName = true)
    void eachTermIsWhatItAddsToThoseThatDoNotContainIt(
            String name,
            @ConvertWith(Cells.Labels.class) List<String> a,
            @ConvertWith(Cells.Labels.class) List<String> b,
            @ConvertWith(Cells.Doubles.class) double[] values,
            double sumA,
            double sumB,
            double sumBoth,
            int dfBoth,
            double residual,
            int residualDf) {
        var decomposition = Decomposition.of(
                single(values.length),
                List.of(term("a", Grouping.by(a), 1), term("b", Grouping.by(b), 1), term("ab", cells(a, b), 1)));
        var table = decomposition.analyse(values).get(0);
        SUMMED.assertClose(sumA, row(table, 0).sumOfSquares());
        SUMMED.assertClose(sumB, row(table, 1).sumOfSquares());
        SUMMED.assertClose(sumBoth, row(table, 2).sumOfSquares());
        assertEquals(dfBoth, row(table, 2).part().df());
        SUMMED.assertClose(residual, table.residualSumOfSquares());
        assertEquals(residualDf, table.residualDf());
        assertEquals(name.startsWith("balanced") || name.startsWith("proportional"), decomposition.isOrthogonal());
    }

    @Test
    void oneFactorIsOrthogonalHoweverUnequal() {
        var groups = Grouping.by(List.of(1, 1, 1, 2, 3, 3));
        var decomposition = Decomposition.of(single(6), List.of(term("a", groups, 2)));
        assertTrue(decomposition.isOrthogonal());
        assertEquals(List.of(new Decomposition.Part(0, 0, 2, 1.0)), rounded(decomposition));
    }

    private static List<Decomposition.Part> rounded(Decomposition decomposition) {
        return decomposition.parts().stream()
                .map(p -> new Decomposition.Part(p.stratum(), p.term(), p.df(), Math.round(p.efficiency() * 1e9) / 1e9))
                .toList();
    }

    /**
     * A cyclic design: block i holds the given numbers plus i, modulo v. Efficiency factors as catalogued: Cochran and
     * Cox (1957), Experimental Designs, 2nd ed., chapter 11, from memory; they are lambda v / (r k).
     */
    @ParameterizedTest(name = "{0} treatments, blocks of {1}")
    @CsvSource({
        "3, 0 1, 0.750",
        "4, 0 1 2, 0.889",
        "5, 0 1 2 3, 0.938",
        "7, 0 1 3, 0.778",
        "7, 0 1 2 4, 0.875",
        "11, 1 3 4 5 9, 0.880",
        "11, 0 2 6 7 8 10, 0.917",
        "13, 0 1 3 9, 0.812",
        "21, 3 6 7 12 14, 0.840",
        "31, 1 5 11 24 25 27, 0.861"
    })
    void balancedIncompleteBlocksHaveTheEfficiencyOfTheCatalogue(
            int v, @ConvertWith(Cells.Labels.class) List<String> start, double efficiency) {
        var blocks = new ArrayList<Integer>();
        var treatments = new ArrayList<Integer>();
        for (int i = 0; i < v; i++) {
            for (String number : start) {
                blocks.add(i);
                treatments.add((Integer.parseInt(number) + i) % v);
            }
        }
        var decomposition = inBlocks(blocks, treatments, v);
        int k = start.size();
        double lambda = k * (k - 1.0) / (v - 1);
        assertEquals(efficiency, lambda * v / (k * k), ROUNDED);
        SUMMED.assertClose(
                1 - lambda * v / (k * k), decomposition.parts().get(0).efficiency());
        SUMMED.assertClose(lambda * v / (k * k), decomposition.parts().get(1).efficiency());
        assertEquals(v - 1, decomposition.parts().get(1).df());
        assertTrue(decomposition.evenIn(1));
        assertFalse(decomposition.isOrthogonal());
    }

    @ParameterizedTest
    @CsvSource({"4, 0.667", "5, 0.625", "6, 0.600", "7, 0.583", "8, 0.571"})
    void allPairsHaveTheEfficiencyOfTheCatalogue(int v, double efficiency) {
        var blocks = new ArrayList<Integer>();
        var treatments = new ArrayList<Integer>();
        for (int i = 0; i < v; i++) {
            for (int j = 0; j < i; j++) {
                Collections.addAll(treatments, i, j);
                Collections.addAll(blocks, v * i + j, v * i + j);
            }
        }
        var tray = inBlocks(blocks, treatments, v).parts().get(1);
        assertEquals(efficiency, tray.efficiency(), ROUNDED);
        SUMMED.assertClose(v / (2.0 * (v - 1)), tray.efficiency());
    }

    private static Decomposition inBlocks(List<Integer> blocks, List<Integer> treatments, int v) {
        var trays = Grouping.by(IntStream.range(0, blocks.size()).boxed().toList());
        return Decomposition.of(
                Strata.of(List.of(Grouping.by(blocks), trays)), List.of(term("a", Grouping.by(treatments), v - 1)));
    }

    /** Three factors of two levels in 2 blocks of 4 twice over, blocks told apart by the sign of the product. */
    private static Decomposition confounded() {
        var grid = Grid.of(2, 2, 2, 2);
        var blocks = Grouping.by(grid.points().stream()
                .map(p -> List.of(p.get(0), (p.get(1) + p.get(2) + p.get(3)) % 2))
                .toList());
        return Decomposition.of(
                Strata.of(List.of(blocks, grid.by(0, 1, 2, 3))),
                List.of(
                        term("a", grid.by(1), 1),
                        term("b", grid.by(2), 1),
                        term("c", grid.by(3), 1),
                        term("ab", grid.by(1, 2), 1),
                        term("ac", grid.by(1, 3), 1),
                        term("bc", grid.by(2, 3), 1),
                        term("abc", grid.by(1, 2, 3), 1)));
    }

    @Test
    void aConfoundedInteractionLiesBetweenBlocks() {
        var decomposition = confounded();
        assertEquals(
                Stream.concat(
                                Stream.of(new Decomposition.Part(0, 6, 1, 1.0)),
                                IntStream.range(0, 6).mapToObj(t -> new Decomposition.Part(1, t, 1, 1.0)))
                        .toList(),
                rounded(decomposition));
        assertEquals(2, decomposition.residualDf(0));
        assertEquals(6, decomposition.residualDf(1));
        assertTrue(decomposition.isOrthogonal());
        var blocks = Grouping.by(List.of(0, 1, 1, 0, 1, 0, 0, 1, 2, 3, 3, 2, 3, 2, 2, 3));
        SUMMED.assertClose(1, decomposition.confoundedWith(6, blocks));
        SUMMED.assertClose(0, decomposition.confoundedWith(0, blocks), 1);
    }

    @Test
    void whatTellsTheSameApartIsAliased() {
        var grid = Grid.of(3, 4);
        var decomposition = Decomposition.of(
                Strata.of(List.of(grid.by(0, 1))),
                List.of(term("a", grid.by(0), 2), term("b", grid.by(0), 2), term("c", grid.by(1), 3)));
        assertTrue(decomposition.aliased(0, 1));
        assertFalse(decomposition.aliased(0, 2));
        assertEquals(0, decomposition.estimableDf(0));
        assertEquals(0, decomposition.estimableDf(1));
        assertEquals(3, decomposition.estimableDf(2));
        assertEquals(
                List.of(2),
                decomposition.parts().stream().map(Decomposition.Part::term).toList());
    }

    @Test
    void twoFactorsMayShareOneContrastOfSeveral() {
        var a = Grouping.by(List.of(1, 1, 2, 2, 3, 3));
        var b = Grouping.by(List.of(1, 1, 2, 2, 2, 2));
        var decomposition = Decomposition.of(single(6), List.of(term("a", a, 2), term("b", b, 1)));
        assertTrue(decomposition.aliased(0, 1));
        assertTrue(decomposition.aliased(1, 0));
        assertEquals(1, decomposition.estimableDf(0));
        assertEquals(0, decomposition.estimableDf(1));
    }

    @Test
    void aFactorWithOneLevelSaysNothing() {
        var decomposition = Decomposition.of(single(4), List.of(term("a", Grouping.whole(4), 1)));
        assertEquals(List.of(), decomposition.parts());
        assertEquals(0, decomposition.estimableDf(0));
        assertEquals(0, decomposition.confoundedWith(0, Grouping.whole(4)));
        assertEquals(3, decomposition.residualDf(0));
        assertTrue(decomposition.isOrthogonal());
    }

    /** Shelf / stack / position crossed with stack; cover on stacks, soak and mat on trays. */
    private static Decomposition stacks(Grid grid) {
        return Decomposition.of(
                Strata.of(List.of(grid.by(0), grid.by(0, 1), grid.by(0, 1, 2))),
                List.of(
                        term("c", sums(grid, 2, 1), 1),
                        term("s", sums(grid, 2, 2), 1),
                        term("m", sums(grid, 3, 1, 2), 2),
                        term("cs", cells(labels(grid, 2, 1), labels(grid, 2, 2)), 1),
                        term("cm", cells(labels(grid, 2, 1), labels(grid, 3, 1, 2)), 2),
                        term("sm", cells(labels(grid, 2, 2), labels(grid, 3, 1, 2)), 2)));
    }

    private static List<Integer> labels(Grid grid, int modulus, int... coordinates) {
        return grid.points().stream()
                .map(p -> IntStream.of(coordinates).map(p::get).sum() % modulus)
                .toList();
    }

    private static Grouping sums(Grid grid, int modulus, int... coordinates) {
        return Grouping.by(labels(grid, modulus, coordinates));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void sumsOfSquaresAddUpWhereTermsAreOrthogonal(long seed) {
        double[] values = new Random(seed).doubles(16, 0, 10).toArray();
        double sum = confounded().analyse(values).stream()
                .mapToDouble(t -> t.residualSumOfSquares()
                        + t.rows().stream()
                                .mapToDouble(Decomposition.Row::sumOfSquares)
                                .sum())
                .sum();
        SUMMED.assertClose(Vectors.squaredLength(Strata.centred(values)), sum);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 5, 9})
    void everyPartHasEfficiencyAndDegreesOfFreedomOfItsOwn(int missing) {
        for (long seed = 0; seed < 8; seed++) {
            var grid = Grid.of(2, 4, 6).without(missing, seed);
            var decomposition = stacks(grid);
            for (var part : decomposition.parts()) {
                assertTrue(part.df() > 0 && part.efficiency() > 0 && part.efficiency() <= 1, part::toString);
                assertTrue(part.df() <= decomposition.estimableDf(part.term()), part::toString);
            }
            double[] values = new Random(seed).doubles(grid.size()).toArray();
            for (var table : decomposition.analyse(values)) {
                assertTrue(table.residualDf() >= 0 && table.residualSumOfSquares() >= 0, table::toString);
                for (var row : table.rows()) {
                    double f = row.sumOfSquares() / row.part().df();
                    double p = Tail.f(f, row.part().df(), Math.max(1, table.residualDf()));
                    assertTrue(p >= 0 && p <= 1, row::toString);
                }
            }
        }
    }

    /**
     * Six stacks of four out of six mats, a cover on each stack: by hand, mats and cover take 7 of 24 columns with the
     * mean, and stacks add 4 to them, though mats between stacks use up all that stacks can show.
     */
    @Test
    void whatStacksAddToTermsIsMoreThanTheyHaveLeftOver() {
        int[][] mats = {{0, 1, 2, 3}, {2, 3, 4, 5}, {0, 1, 4, 5}, {0, 2, 4, 1}, {1, 3, 5, 0}, {2, 3, 5, 0}};
        var stack = new ArrayList<Integer>();
        var mat = new ArrayList<Integer>();
        var cover = new ArrayList<Integer>();
        for (int s = 0; s < 6; s++) {
            for (int m : mats[s]) {
                stack.add(s);
                mat.add(m);
                cover.add(s % 2);
            }
        }
        var trays = Grouping.by(IntStream.range(0, 24).boxed().toList());
        var decomposition = Decomposition.of(
                Strata.of(List.of(Grouping.by(stack), trays)),
                List.of(term("c", Grouping.by(cover), 1), term("m", Grouping.by(mat), 5)));
        assertEquals(0, decomposition.residualDf(0));
        assertEquals(4, decomposition.errorDf(0));
        assertEquals(24 - 7 - 4, decomposition.errorDf(1));
        assertEquals(decomposition.residualDf(1), decomposition.errorDf(1));
    }

    @Test
    void inAnOrthogonalLayoutTheyAreTheSame() {
        var decomposition = stacks(Grid.of(2, 4, 6));
        for (int s = 0; s < 3; s++) {
            assertEquals(decomposition.residualDf(s), decomposition.errorDf(s));
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void theOrderOfTraysChangesNothing(long seed) {
        var grid = Grid.of(2, 4, 6).without(4, seed);
        double[] values = new Random(seed).doubles(grid.size()).toArray();
        var order = new ArrayList<>(IntStream.range(0, grid.size()).boxed().toList());
        Collections.shuffle(order, new Random(seed + 50));
        var shuffled = new Grid(order.stream().map(grid.points()::get).toList());
        double[] moved = order.stream().mapToDouble(i -> values[i]).toArray();
        var one = stacks(grid);
        var other = stacks(shuffled);
        assertEquals(rounded(one), rounded(other));
        for (int s = 0; s < 3; s++) {
            var here = one.analyse(values).get(s);
            var there = other.analyse(moved).get(s);
            SUMMED.assertClose(here.residualSumOfSquares(), there.residualSumOfSquares(), 1);
            for (int r = 0; r < here.rows().size(); r++) {
                SUMMED.assertClose(
                        here.rows().get(r).sumOfSquares(), there.rows().get(r).sumOfSquares(), 1);
            }
        }
    }
}
