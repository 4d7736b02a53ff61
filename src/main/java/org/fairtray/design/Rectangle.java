package org.fairtray.design;

import java.util.function.IntPredicate;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * A random arrangement of t treatments in r rows and c columns, k to a cell, in which every treatment is equally often in
 * every row and equally often in every column, and at most once in a cell. With r = c = t and k = 1 it is a Latin square.
 *
 * <p>Drawn by the random walk of Jacobson and Matthews on the three-way table of rows, columns and treatments, widened
 * from lines that add up to 1 to lines that add up to any fixed number. A step changes eight corners of a box by one; an
 * arrangement with one entry of -1 may come in between, one with an entry of 2 is refused. Steps there and back are
 * equally likely, so every arrangement the walk can reach is equally likely in the end. Rows, columns and treatments are
 * then put in random order.
 *
 * <p>Source: Jacobson and Matthews (1996), Generating uniformly distributed random Latin squares, Journal of
 * Combinatorial Designs 4, 405-437. That every arrangement can be reached is proved there for Latin squares; for the
 * wider case it is checked by counting in the tests.
 */
final class Rectangle {
    private final int rows;
    private final int columns;
    private final int perCell;
    private final int treatments;
    private final byte[][][] table;
    private final UniformRandomProvider random;
    /** The corner that is -1 (row, column, treatment), or null while the arrangement is proper. */
    private int[] negative;

    private Rectangle(int rows, int columns, int perCell, int treatments, UniformRandomProvider random) {
        this.rows = rows;
        this.columns = columns;
        this.perCell = perCell;
        this.treatments = treatments;
        this.random = random;
        this.table = new byte[rows][columns][treatments];
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                for (int l = 0; l < perCell; l++) {
                    table[i][j][((i + j) * perCell + l) % treatments] = 1;
                }
            }
        }
    }

    /** Whether such an arrangement exists: rows and columns hold whole sets of treatments, and no cell more than one. */
    static boolean exists(int rows, int columns, int perCell, int treatments) {
        return perCell <= treatments && rows * perCell % treatments == 0 && columns * perCell % treatments == 0;
    }

    /**
     * Draws one.
     *
     * @return treatment numbers from 0, by row, column and place in the cell; the places of a cell in random order
     * @throws IllegalArgumentException if none exists
     */
    static int[][][] draw(int rows, int columns, int perCell, int treatments, UniformRandomProvider random) {
        if (!exists(rows, columns, perCell, treatments)) {
            throw new IllegalArgumentException(rows + " x " + columns + " cells of " + perCell + " can't hold "
                    + treatments + " treatments equally often in every row and column");
        }
        return mixed(rows, columns, perCell, treatments, random).inRandomOrder();
    }

    /** A walk that has forgotten its start: ten times as many proper arrangements as entries is ample. */
    private static Rectangle mixed(int rows, int columns, int perCell, int treatments, UniformRandomProvider random) {
        var walk = new Rectangle(rows, columns, perCell, treatments, random);
        walk.mix(10L * rows * columns * treatments);
        return walk;
    }

    /**
     * Draws any number of them by one walk: the first as {@link #draw} does, each other after as many proper arrangements
     * as there are rows and columns. Each is put in random order anew and is as likely as any other; that neighbours still
     * hang together a little makes a share of draws slightly less exact, and no larger or smaller.
     */
    static Supplier<int[][][]> draws(int rows, int columns, int perCell, int treatments, UniformRandomProvider random) {
        var walk = mixed(rows, columns, perCell, treatments, random);
        return () -> {
            var drawn = walk.inRandomOrder();
            walk.mix((long) rows + columns);
            return drawn;
        };
    }

    /** Walks until so many proper arrangements were met; with every treatment in every cell there is only one. */
    private void mix(long proper) {
        long wanted = perCell < treatments ? proper : 0;
        for (long met = 0; met < wanted; ) {
            step();
            if (negative == null) {
                met++;
            }
        }
    }

    private void step() {
        int[] corner = negative == null ? emptyEntry() : negative;
        int i = corner[0];
        int j = corner[1];
        int s = corner[2];
        int otherRow = oneOf(rows, row -> table[row][j][s] == 1);
        int otherColumn = oneOf(columns, column -> table[i][column][s] == 1);
        int other = oneOf(treatments, treatment -> table[i][j][treatment] == 1);
        boolean refused = table[otherRow][otherColumn][s] == 1
                || table[otherRow][j][other] == 1
                || table[i][otherColumn][other] == 1;
        if (!refused) {
            table[i][j][s]++;
            table[i][j][other]--;
            table[otherRow][j][s]--;
            table[i][otherColumn][s]--;
            table[otherRow][otherColumn][s]++;
            table[otherRow][j][other]++;
            table[i][otherColumn][other]++;
            table[otherRow][otherColumn][other]--;
            negative = table[otherRow][otherColumn][other] < 0 ? new int[] {otherRow, otherColumn, other} : null;
        }
    }

    private int[] emptyEntry() {
        while (true) {
            int i = random.nextInt(rows);
            int j = random.nextInt(columns);
            int s = random.nextInt(treatments);
            if (table[i][j][s] == 0) {
                return new int[] {i, j, s};
            }
        }
    }

    private int oneOf(int count, IntPredicate is) {
        int choices = 0;
        for (int i = 0; i < count; i++) {
            choices += is.test(i) ? 1 : 0;
        }
        int chosen = random.nextInt(choices);
        int i = -1;
        while (chosen >= 0) {
            i++;
            chosen -= is.test(i) ? 1 : 0;
        }
        return i;
    }

    private int[][][] inRandomOrder() {
        int[] rowOrder = order(rows);
        int[] columnOrder = order(columns);
        int[] names = order(treatments);
        var drawn = new int[rows][columns][perCell];
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                var entries = table[rowOrder[i]][columnOrder[j]];
                int place = 0;
                for (int s = 0; s < treatments; s++) {
                    if (entries[s] == 1) {
                        drawn[i][j][place++] = names[s];
                    }
                }
                Generator.shuffle(drawn[i][j], random);
            }
        }
        return drawn;
    }

    private int[] order(int count) {
        int[] order = IntStream.range(0, count).toArray();
        Generator.shuffle(order, random);
        return order;
    }
}
