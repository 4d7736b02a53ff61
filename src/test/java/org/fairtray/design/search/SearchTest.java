package org.fairtray.design.search;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;
import org.fairtray.design.Generator;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SearchTest {
    private static final Duration SOON = Duration.ofSeconds(10);

    /** Sets of blocks of k for v treatments; units are numbered block by block. */
    private static Problem blocks(int v, int units, int k, int set) {
        return new Problem(
                List.of(numbers(units, u -> u / k)),
                numbers(units, u -> u / set),
                new int[units],
                new double[][][] {contrasts(v)},
                new double[v - 1],
                false);
    }

    private static int[] numbers(int units, IntUnaryOperator of) {
        return IntStream.range(0, units).map(of).toArray();
    }

    /** Orthogonal contrasts whose squares have a mean of 1. */
    private static double[][] contrasts(int v) {
        var rows = new double[v][v - 1];
        for (int c = 0; c < v - 1; c++) {
            double scale = Math.sqrt((double) v / ((c + 1) * (c + 2)));
            for (int t = 0; t <= c; t++) {
                rows[t][c] = scale;
            }
            rows[c + 1][c] = -(c + 1) * scale;
        }
        return rows;
    }

    private static Found search(Problem problem) {
        return Assertions.assertTimeout(SOON, () -> Search.best(problem, shuffle(1), share -> {}));
    }

    private static Consumer<int[]> shuffle(long seed) {
        var random = Generator.of(seed);
        return numbers -> {
            for (int i = numbers.length - 1; i > 0; i--) {
                int other = random.nextInt(i + 1);
                int kept = numbers[i];
                numbers[i] = numbers[other];
                numbers[other] = kept;
            }
        };
    }

    /** E = v(k - 1)/(k(v - 1)): Cochran and Cox (1957), chapter 11, from memory; the plans are in its table 11.3. */
    @ParameterizedTest
    @CsvSource({"7, 7, 3", "13, 13, 4", "9, 12, 3", "6, 10, 3", "11, 11, 5", "16, 20, 4"})
    void findsBalancedIncompleteBlocks(int v, int b, int k) {
        var found = search(blocks(v, b * k, k, b * k));
        double theory = (double) v * (k - 1) / (k * (v - 1));
        assertEquals(theory, found.efficiency(), 1e-9);
        assertEquals(theory, found.bound().orElseThrow(), 1e-9);
        assertEquals(1, concurrences(found.given(), v, k).distinct().count());
    }

    private static IntStream concurrences(int[] given, int v, int k) {
        var together = new int[v][v];
        for (int u = 0; u < given.length; u++) {
            for (int w = u / k * k; w < u / k * k + k; w++) {
                together[given[u]][given[w]]++;
            }
        }
        var pairs = new ArrayList<Integer>();
        for (int a = 0; a < v; a++) {
            for (int c = 0; c < a; c++) {
                pairs.add(together[a][c]);
            }
        }
        return pairs.stream().mapToInt(Integer::intValue);
    }

    /** Youden (1937), Contributions from the Boyce Thompson Institute 9, 317-326, from memory: as efficient as its blocks. */
    @ParameterizedTest
    @CsvSource({"7, 3", "11, 5", "13, 4"})
    void findsYoudenSquares(int v, int k) {
        int units = v * k;
        var problem = new Problem(
                List.of(numbers(units, u -> u / v), numbers(units, u -> u % v)),
                numbers(units, u -> u / v),
                new int[units],
                new double[][][] {contrasts(v)},
                new double[v - 1],
                false);
        assertEquals((double) v * (k - 1) / (k * (v - 1)), search(problem).efficiency(), 1e-9);
    }

    /** The bound is computed ({@link Bound}); its first form is Patterson and Williams (1976), from memory. */
    @ParameterizedTest
    @CsvSource({"12, 4, 3", "12, 4, 4", "24, 4, 2", "24, 4, 3", "24, 4, 4", "48, 6, 2", "48, 6, 3"})
    void findsResolvableBlocksNearTheBound(int v, int k, int r) {
        var found = search(blocks(v, v * r, k, v));
        assertTrue(
                found.bound().orElseThrow() - found.efficiency() < 0.005, found.efficiency() + " of " + found.bound());
        for (int set = 0; set < r; set++) {
            assertEquals(
                    v,
                    IntStream.range(set * v, set * v + v)
                            .map(u -> found.given()[u])
                            .distinct()
                            .count());
        }
    }

    @Test
    void findsALayoutOf600UnitsSoon() {
        var found = search(blocks(12, 600, 20, 600));
        assertTrue(found.bound().orElseThrow() - found.efficiency() < 0.001);
    }

    @Test
    void givesTheSameForTheSameChance() {
        var problem = blocks(8, 24, 3, 24);
        var one = Search.best(problem, shuffle(3), share -> {});
        assertArrayEquals(
                one.given(), Search.best(problem, shuffle(3), share -> {}).given());
    }
}
