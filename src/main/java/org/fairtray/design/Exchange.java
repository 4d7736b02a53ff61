package org.fairtray.design;

import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Grouping;

/**
 * Units exchanged within groups. Each arrangement is told by where the readings of every unit come from: unit u gets those
 * of unit {@code arrangement[u]}. Exchanging readings among units is the same as exchanging what the units were given the
 * other way, so the layout's columns stay as they are. Units of a group with the same label are as good as one another:
 * arrangements that differ only among them are one.
 */
public final class Exchange implements Arrangements {
    private final Scheme scheme;
    private final String description;
    private final boolean alikeOutside;
    private final double alike;
    private final int units;
    /** The units of each group, by label. */
    private final int[][] groups;
    /** The label of each of them, from 0 within the group, ascending. */
    private final int[][] labels;

    /**
     * @param alikeOutside whether units of a group are of one size and lie in the same units of all coarser strata
     * @param group of each unit
     * @param label of each unit
     */
    Exchange(Scheme scheme, String description, boolean alikeOutside, List<?> group, List<?> label, double alike) {
        this.scheme = scheme;
        this.description = description;
        this.alikeOutside = alikeOutside;
        this.alike = alike;
        this.units = group.size();
        var grouping = Grouping.by(group);
        int[] numbers = Grouping.by(label).of();
        this.groups = new int[grouping.groups()][];
        this.labels = new int[groups.length][];
        int[] of = grouping.of();
        for (int g = 0; g < groups.length; g++) {
            int number = g;
            groups[g] = IntStream.range(0, units)
                    .filter(u -> of[u] == number)
                    .boxed()
                    .sorted((u, v) -> Integer.compare(numbers[u], numbers[v]))
                    .mapToInt(Integer::intValue)
                    .toArray();
            labels[g] = ranks(Arrays.stream(groups[g]).map(u -> numbers[u]).toArray());
        }
    }

    /** Sorted numbers replaced by 0, 1, 2 and so on. */
    private static int[] ranks(int[] sorted) {
        var ranks = new int[sorted.length];
        for (int i = 1; i < sorted.length; i++) {
            ranks[i] = ranks[i - 1] + (sorted[i] == sorted[i - 1] ? 0 : 1);
        }
        return ranks;
    }

    @Override
    public Scheme scheme() {
        return scheme;
    }

    @Override
    public String description() {
        return description;
    }

    /** The units of each group. */
    int[][] groups() {
        return groups;
    }

    /** Whether an exchange leaves the sum of squares within the stratum as it is. */
    public boolean keepsTotal() {
        return alikeOutside;
    }

    /** The product over groups of (units)!/(product over labels of (units with the label)!). */
    @Override
    public double number() {
        double product = 1;
        for (int[] own : labels) {
            int same = 0;
            for (int i = 0; i < own.length; i++) {
                same = i > 0 && own[i] == own[i - 1] ? same + 1 : 1;
                product = product * (i + 1) / same;
            }
        }
        return product;
    }

    @Override
    public double alike() {
        return alike;
    }

    @Override
    public void all(Consumer<int[]> visitor) {
        all(0, IntStream.range(0, units).toArray(), visitor);
    }

    private void all(int g, int[] sources, Consumer<int[]> visitor) {
        if (g == groups.length) {
            visitor.accept(sources);
            return;
        }
        int[] order = labels[g].clone();
        var next = new int[order.length];
        do {
            give(g, order, next, sources);
            all(g + 1, sources, visitor);
        } while (advance(order));
    }

    /** The unit at position i comes to stand where the next unit of label order[i] stood. */
    private void give(int g, int[] order, int[] next, int[] sources) {
        int[] own = labels[g];
        for (int i = own.length - 1; i >= 0; i--) {
            next[own[i]] = i;
        }
        for (int i = 0; i < order.length; i++) {
            sources[groups[g][next[order[i]]++]] = groups[g][i];
        }
    }

    /** The next order of labels, as a dictionary has them; false, and the first again, after the last. */
    private static boolean advance(int[] order) {
        int i = order.length - 2;
        while (i >= 0 && order[i] >= order[i + 1]) {
            i--;
        }
        if (i >= 0) {
            int j = order.length - 1;
            while (order[j] <= order[i]) {
                j--;
            }
            swap(order, i, j);
        }
        for (int low = i + 1, high = order.length - 1; low < high; low++, high--) {
            swap(order, low, high);
        }
        return i >= 0;
    }

    private static void swap(int[] numbers, int i, int j) {
        int kept = numbers[i];
        numbers[i] = numbers[j];
        numbers[j] = kept;
    }

    @Override
    public void draw(int draws, UniformRandomProvider random, Consumer<int[]> visitor) {
        int[] sources = IntStream.range(0, units).toArray();
        for (int draw = 0; draw < draws; draw++) {
            for (int[] group : groups) {
                for (int i = group.length - 1; i > 0; i--) {
                    swap(sources, group[i], group[random.nextInt(i + 1)]);
                }
            }
            visitor.accept(sources);
        }
    }
}
