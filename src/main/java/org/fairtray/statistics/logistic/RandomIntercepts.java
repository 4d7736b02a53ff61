package org.fairtray.statistics.logistic;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.SparsePattern;

/**
 * Which random intercepts each of n rows has: one of each grouping. The intercepts of all groupings are numbered through,
 * the finest grouping first, so that the matrix of which rows share which two fills in little when it is factored: single
 * trays meet nothing but their own units, and go first.
 */
final class RandomIntercepts {
    private final int rows;
    private final int groupings;
    private final int total;
    private final int[] first;
    private final int[] column;
    private final int[] pair;
    private final SparsePattern pattern;

    /**
     * Numbers the intercepts.
     *
     * @param rows n
     * @param groupings of n rows each, in any order
     * @throws IllegalArgumentException if a grouping isn't of n rows
     */
    RandomIntercepts(int rows, List<Grouping> groupings) {
        this.rows = rows;
        this.groupings = groupings.size();
        this.first = new int[groupings.size()];
        this.column = new int[rows * groupings.size()];
        this.total = number(groupings);
        this.pair = new int[rows * pairs()];
        this.pattern = meetings();
    }

    private int number(List<Grouping> of) {
        int next = 0;
        var finestFirst = IntStream.range(0, groupings)
                .boxed()
                .sorted(Comparator.comparing(g -> -of.get(g).groups()))
                .toList();
        for (int g : finestFirst) {
            int[] groups = of.get(g).of();
            if (groups.length != rows) {
                throw new IllegalArgumentException("a grouping of " + groups.length + ": expected of " + rows);
            }
            first[g] = next;
            for (int i = 0; i < rows; i++) {
                column[i * groupings + g] = next + groups[i];
            }
            next += of.get(g).groups();
        }
        return next;
    }

    private SparsePattern meetings() {
        var high = new int[pair.length];
        var low = new int[pair.length];
        int next = 0;
        for (int i = 0; i < rows; i++) {
            for (int g = 1; g < groupings; g++) {
                for (int h = 0; h < g; h++, next++) {
                    high[next] = Math.max(column(i, g), column(i, h));
                    low[next] = Math.min(column(i, g), column(i, h));
                }
            }
        }
        var found = SparsePattern.of(total, high, low);
        for (int p = 0; p < pair.length; p++) {
            pair[p] = found.position(high[p], low[p]);
        }
        return found;
    }

    /** How many groupings there are. */
    int groupings() {
        return groupings;
    }

    /** How many intercepts there are in all. */
    int total() {
        return total;
    }

    /** The number of the first intercept of grouping g; the others follow. */
    int first(int g) {
        return first[g];
    }

    /** The number of row i's intercept of grouping g. */
    int column(int i, int g) {
        return column[i * groupings + g];
    }

    /** How many pairs of groupings there are. */
    int pairs() {
        return groupings * (groupings - 1) / 2;
    }

    /**
     * Where in the pattern the two intercepts of row i meet that are pair {@code k}; pairs (g, h) with h below g stand in
     * the order (1, 0), (2, 0), (2, 1), (3, 0) and so on.
     */
    int meeting(int i, int k) {
        return pair[i * pairs() + k];
    }

    /** Which intercepts meet, and what fills in. */
    SparsePattern pattern() {
        return pattern;
    }
}
