package org.fairtray.design;

import java.util.Arrays;
import java.util.function.IntFunction;
import java.util.stream.IntStream;

/**
 * Numbers that differ by one at most. Each row is a share-out over the same parts; half of what its sum of squares has too
 * much is the number of breaches, which is 0 where no two numbers of a row differ by more than one.
 */
final class EvenNumbers extends Restraint {
    private final int[] group;
    private final int[] part;
    private final boolean byLabel;
    private final int parts;
    private final int[][] rows;
    private final int labels;
    private final int columns;
    private long excess;

    private EvenNumbers(int[] group, int[] part, boolean byLabel, int parts, int columns, int labels) {
        super(group.length);
        this.group = group;
        this.part = part;
        this.byLabel = byLabel;
        this.parts = parts;
        this.columns = columns;
        this.labels = labels;
        int groups = 1 + IntStream.of(group).max().orElse(0);
        this.rows = new int[byLabel ? groups * labels : 1][];
    }

    /**
     * Each label over the parts in which anything stands, within each group.
     *
     * @param group of each stand, or {@link #NOTHING} for one that isn't counted
     * @param part of each stand, from 0
     * @param labels of the stands at first
     * @param most labels there can be
     */
    static EvenNumbers ofEachLabel(int[] group, int[] part, int[] labels, int most) {
        var inUse = IntStream.range(0, labels.length)
                .filter(s -> group[s] != NOTHING && labels[s] != NOTHING)
                .mapToObj(s -> group[s] + " " + part[s])
                .distinct()
                .count();
        long groups = IntStream.of(group).filter(g -> g != NOTHING).distinct().count();
        int columns = IntStream.of(part).max().orElse(0) + 1;
        return new EvenNumbers(group, part, true, (int) (inUse / Math.max(1, groups)), columns, most);
    }

    /**
     * The places of some stands over all labels.
     *
     * @param group 0 for each stand that is counted; {@link #NOTHING} for others
     * @param labels of all units at first, those that aren't counted too
     * @param most labels there can be
     */
    static EvenNumbers ofLabels(int[] group, int[] labels, int most) {
        int inUse =
                (int) IntStream.of(labels).filter(l -> l != NOTHING).distinct().count();
        return new EvenNumbers(group, group, false, inUse, most, most);
    }

    /** The least sum of squares of so many things in so many parts. */
    static long leastSquares(int things, int parts) {
        long each = things / parts;
        long more = things % parts;
        return more * (each + 1) * (each + 1) + (parts - more) * each * each;
    }

    @Override
    void changed(int stand, int which, int by) {
        if (group[stand] == NOTHING) {
            return;
        }
        int number = byLabel ? group[stand] * labels + which : 0;
        if (rows[number] == null) {
            // The last number of a row is the sum of the others.
            rows[number] = new int[columns + 1];
        }
        int[] row = rows[number];
        int column = byLabel ? part[stand] : which;
        excess += leastSquares(row[columns], parts);
        excess -= (long) row[column] * row[column];
        row[column] += by;
        row[columns] += by;
        excess += (long) row[column] * row[column];
        excess -= leastSquares(row[columns], parts);
    }

    @Override
    long breaches() {
        return excess / 2;
    }

    @Override
    String amiss(IntFunction<String> names) {
        for (int r = 0; r < rows.length; r++) {
            int[] numbers = rows[r] == null ? new int[columns] : Arrays.copyOf(rows[r], columns);
            long squares = IntStream.of(numbers).mapToLong(n -> (long) n * n).sum();
            if (squares > leastSquares(IntStream.of(numbers).sum(), parts)) {
                int most = indexOfLargest(numbers);
                int few = IntStream.of(numbers)
                        .sorted()
                        .skip(columns - parts)
                        .findFirst()
                        .orElse(0);
                return byLabel
                        ? names.apply(r % labels) + " comes " + times(numbers[most]) + " at number " + (most + 1)
                                + " and " + times(few) + " at another"
                        : names.apply(most) + " comes " + times(numbers[most]) + " at the edges and another "
                                + times(few);
            }
        }
        return "";
    }

    private static int indexOfLargest(int[] numbers) {
        return IntStream.range(0, numbers.length).reduce(0, (a, b) -> numbers[b] > numbers[a] ? b : a);
    }

    private static String times(int number) {
        return switch (number) {
            case 0 -> "never";
            case 1 -> "once";
            case 2 -> "twice";
            default -> number + " times";
        };
    }
}
