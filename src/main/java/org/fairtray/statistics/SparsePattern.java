package org.fairtray.statistics;

import java.util.Arrays;

/**
 * Where the factor L of a symmetric matrix A may differ from 0, found once from where A may.
 *
 * <p>A column of L has the entries of A's column and those of its children's columns in the elimination tree, so little
 * is filled in where the caller orders the columns well: those that meet fewest others first. The places that a column
 * changes when it is eliminated are found too; they take as many integers as a factoring takes multiplications.
 *
 * <p>Source: Davis (2006), Direct Methods for Sparse Linear Systems, sections 4.1 to 4.3.
 */
public final class SparsePattern {
    private static final int NONE = -1;

    /** Entries of column j stand from start[j] to before start[j + 1]; for {@link SparseCholesky}, not to be changed. */
    final int[] start;

    /** Row numbers, ascending within a column. */
    final int[] row;

    /** For each column, for each two of its entries, where the entry of both their rows stands. */
    final int[] changed;

    private SparsePattern(int[] start, int[] row) {
        this.start = start;
        this.row = row;
        this.changed = changed(start, row);
    }

    /**
     * The pattern of L.
     *
     * @param size the number of rows and columns of A
     * @param rows row numbers of the entries below the diagonal that may differ from 0; one may be told more than once
     * @param columns their column numbers, each below its row number
     * @throws IllegalArgumentException if an entry is not below the diagonal of A
     */
    public static SparsePattern of(int size, int[] rows, int[] columns) {
        int[][] of = byColumn(size, rows, columns);
        var lastSeen = new int[size];
        var firstChild = new int[size];
        var sibling = new int[size];
        Arrays.fill(lastSeen, NONE);
        Arrays.fill(firstChild, NONE);
        var start = new int[size + 1];
        for (int j = 0; j < size; j++) {
            lastSeen[j] = j;
            var found = new IntBuilder(of[j].length);
            found.addNew(of[j], j, lastSeen);
            for (int child = firstChild[j]; child != NONE; child = sibling[child]) {
                found.addNew(of[child], j, lastSeen);
            }
            of[j] = found.sorted();
            if (of[j].length > 0) {
                int parent = of[j][0];
                sibling[j] = firstChild[parent];
                firstChild[parent] = j;
            }
            start[j + 1] = Math.addExact(start[j], of[j].length);
        }
        var row = new int[start[size]];
        for (int j = 0; j < size; j++) {
            System.arraycopy(of[j], 0, row, start[j], of[j].length);
        }
        return new SparsePattern(start, row);
    }

    /** The row numbers of one column as they are found. */
    private static final class IntBuilder {
        private int[] numbers;
        private int many;

        IntBuilder(int room) {
            this.numbers = new int[room];
        }

        /** Adds the row numbers that column j has not had yet; {@code lastSeen[i]} is the last column with row i. */
        void addNew(int[] entries, int j, int[] lastSeen) {
            for (int i : entries) {
                if (lastSeen[i] != j) {
                    lastSeen[i] = j;
                    if (many == numbers.length) {
                        numbers = Arrays.copyOf(numbers, 2 * many + 4);
                    }
                    numbers[many++] = i;
                }
            }
        }

        int[] sorted() {
            var sorted = Arrays.copyOf(numbers, many);
            Arrays.sort(sorted);
            return sorted;
        }
    }

    private static int[][] byColumn(int size, int[] rows, int[] columns) {
        var counts = new int[size];
        for (int e = 0; e < rows.length; e++) {
            if (columns[e] < 0 || columns[e] >= rows[e] || rows[e] >= size) {
                throw new IllegalArgumentException("entry in row " + rows[e] + ", column " + columns[e]
                        + ": expected below the diagonal of " + size + " x " + size);
            }
            counts[columns[e]]++;
        }
        var of = new int[size][];
        for (int j = 0; j < size; j++) {
            of[j] = new int[counts[j]];
        }
        for (int e = 0; e < rows.length; e++) {
            of[columns[e]][--counts[columns[e]]] = rows[e];
        }
        return of;
    }

    private static int[] changed(int[] start, int[] row) {
        long pairs = 0;
        for (int j = 0; j + 1 < start.length; j++) {
            int many = start[j + 1] - start[j];
            pairs += (long) many * (many - 1) / 2;
        }
        var changed = new int[Math.toIntExact(pairs)];
        int next = 0;
        for (int j = 0; j + 1 < start.length; j++) {
            for (int a = start[j]; a < start[j + 1]; a++) {
                int at = start[row[a]];
                for (int b = a + 1; b < start[j + 1]; b++) {
                    while (row[at] != row[b]) {
                        at++;
                    }
                    changed[next++] = at;
                }
            }
        }
        return changed;
    }

    /** The number of rows and columns. */
    public int size() {
        return start.length - 1;
    }

    /** How many entries below the diagonal may differ from 0. */
    public int entries() {
        return row.length;
    }

    /**
     * Where an entry stands among those below the diagonal.
     *
     * @throws IllegalArgumentException if it isn't in the pattern
     */
    public int position(int inRow, int inColumn) {
        int at = Arrays.binarySearch(row, start[inColumn], start[inColumn + 1], inRow);
        if (at < 0) {
            throw new IllegalArgumentException("row " + inRow + ", column " + inColumn + ": expected in the pattern");
        }
        return at;
    }
}
