package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RectangleTest {

    @Test
    void drawsOfOneWalkAreEquallyLikely() {
        int draws = 57_600;
        Map<String, Integer> seen = new HashMap<>();
        var walk = Rectangle.draws(4, 4, 1, 4, Generator.of(5));
        IntStream.range(0, draws).forEach(d -> seen.merge(Arrays.deepToString(walk.get()), 1, Integer::sum));
        Uniformity.assertUniform(seen.values(), 576, draws);
    }

    /**
     * Numbers of arrangements: Latin squares of side 2 to 4, OEIS A002860; 0-1 matrices with equal margins, OEIS A001499
     * (two treatments in a square of side 4: 90). Three treatments in 3 x 6: each column is one of the 6 orders, and rows
     * are even when the three even orders come equally often and so do the odd: 6!/(2!2!2!) + 6! + 6!/(2!2!2!) = 900. All
     * are counted again by trying every cell.
     */
    @ParameterizedTest(name = "{0} x {1} cells of {2} for {3} treatments: {4} arrangements")
    @CsvSource({
        "2, 2, 1, 2, 2",
        "3, 3, 1, 3, 12",
        "4, 4, 1, 4, 576",
        "4, 4, 1, 2, 90",
        "2, 4, 1, 2, 6",
        "3, 6, 1, 3, 900",
        "6, 3, 1, 3, 900",
        "2, 2, 2, 4, 6"
    })
    void everyArrangementComesEquallyOften(int rows, int columns, int perCell, int treatments, int arrangements) {
        assertEquals(arrangements, count(new int[rows][columns], 0, perCell, treatments));
        var random = Generator.of(rows * 100L + columns * 10L + treatments);
        int draws = 20 * arrangements + 2000;
        Map<String, Integer> seen = new HashMap<>();
        for (int i = 0; i < draws; i++) {
            seen.merge(asSets(Rectangle.draw(rows, columns, perCell, treatments, random)), 1, Integer::sum);
        }
        Uniformity.assertUniform(seen.values(), arrangements, draws);
    }

    /** Of the 161280 Latin squares of side 5 (OEIS A002860), each corner pair of rows is a permutation class of its own. */
    @Test
    void squaresOfSideFiveReachBothMainClasses() {
        var random = Generator.of(5);
        int draws = 4000;
        int withIntercalate = 0;
        for (int i = 0; i < draws; i++) {
            withIntercalate += hasIntercalate(Rectangle.draw(5, 5, 1, 5, random)) ? 1 : 0;
        }
        // Of 56 reduced squares of side 5, 6 are isotopic to the cyclic group's and have no 2 x 2 subsquare
        // (Fisher and Yates 1934, Proceedings of the Cambridge Philosophical Society 30, 492-507): 50/56 have one.
        double expected = 50.0 / 56;
        double error = Math.sqrt(expected * (1 - expected) / draws);
        assertEquals(expected, (double) withIntercalate / draws, 4 * error);
    }

    @ParameterizedTest(name = "{0} x {1} cells of {2} for {3} treatments, seed {4}")
    @CsvSource({
        "8, 8, 1, 8, 1",
        "12, 12, 1, 12, 2",
        "6, 12, 1, 6, 3",
        "12, 4, 1, 4, 4",
        "5, 5, 2, 5, 5",
        "30, 20, 1, 10, 6"
    })
    void everyTreatmentComesEquallyOftenInRowsAndColumns(
            int rows, int columns, int perCell, int treatments, long seed) {
        int[][][] drawn = Rectangle.draw(rows, columns, perCell, treatments, Generator.of(seed));
        for (int i = 0; i < rows; i++) {
            int[][] row = drawn[i];
            assertEvenly(Arrays.stream(row).flatMapToInt(Arrays::stream).toArray(), treatments);
        }
        for (int j = 0; j < columns; j++) {
            int column = j;
            assertEvenly(
                    Arrays.stream(drawn)
                            .flatMapToInt(r -> Arrays.stream(r[column]))
                            .toArray(),
                    treatments);
        }
        for (int[][] row : drawn) {
            for (int[] cell : row) {
                assertEquals(perCell, Arrays.stream(cell).distinct().count());
            }
        }
    }

    @Test
    void refusesWhatDoesNotExist() {
        assertFalse(Rectangle.exists(3, 4, 1, 6));
        var failure = assertThrows(IllegalArgumentException.class, () -> Rectangle.draw(3, 4, 1, 6, Generator.of(1)));
        assertEquals(
                "3 x 4 cells of 1 can't hold 6 treatments equally often in every row and column", failure.getMessage());
    }

    private static void assertEvenly(int[] treatments, int number) {
        long each = treatments.length / number;
        IntStream.range(0, number)
                .forEach(t -> assertEquals(
                        each, Arrays.stream(treatments).filter(x -> x == t).count()));
    }

    private static boolean hasIntercalate(int[][][] square) {
        int n = square.length;
        for (int a = 0; a < n; a++) {
            for (int b = 0; b < a; b++) {
                for (int c = 0; c < n; c++) {
                    for (int d = 0; d < c; d++) {
                        if (square[a][c][0] == square[b][d][0] && square[a][d][0] == square[b][c][0]) {
                            return true;
                        }
                    }
                }
            }
        }
        return false;
    }

    /** Order within a cell is not part of the arrangement. */
    private static String asSets(int[][][] drawn) {
        return Arrays.deepToString(Arrays.stream(drawn)
                .map(row -> Arrays.stream(row)
                        .map(cell -> Arrays.stream(cell).sorted().toArray())
                        .toArray(int[][]::new))
                .toArray(int[][][]::new));
    }

    /** Counts arrangements by trying every set of treatments in every cell; cells hold sets as bits. */
    private static int count(int[][] cells, int next, int perCell, int treatments) {
        int rows = cells.length;
        int columns = cells[0].length;
        if (next == rows * columns) {
            return 1;
        }
        int found = 0;
        for (int set = 1; set < 1 << treatments; set++) {
            if (Integer.bitCount(set) == perCell) {
                cells[next / columns][next % columns] = set;
                if (fits(cells, next, perCell, treatments)) {
                    found += count(cells, next + 1, perCell, treatments);
                }
                cells[next / columns][next % columns] = 0;
            }
        }
        return found;
    }

    private static boolean fits(int[][] cells, int next, int perCell, int treatments) {
        int columns = cells[0].length;
        int[] row = cells[next / columns];
        int[] column = Arrays.stream(cells).mapToInt(r -> r[next % columns]).toArray();
        int inRow = columns * perCell / treatments;
        int inColumn = cells.length * perCell / treatments;
        return IntStream.range(0, treatments).allMatch(t -> times(row, t) <= inRow && times(column, t) <= inColumn);
    }

    private static long times(int[] sets, int treatment) {
        return Arrays.stream(sets).filter(s -> (s >> treatment & 1) == 1).count();
    }
}
