package org.fairtray.design;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleConsumer;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * A random walk over the layouts that the structure of a place allows, which stops at those that keep its restrictions.
 * A step draws two units of a group and lets them exchange what they get; where that adds d breaches it is taken back but
 * once in c^d times. An exchange there and back is equally likely, so in the long run layouts come in proportion to
 * c^-(breaches), and those without a breach equally often. All can be reached, because layouts with breaches lie between.
 *
 * <p>Source: Metropolis, Rosenbluth, Rosenbluth, Teller and Teller (1953), Equation of state calculations by fast computing
 * machines, Journal of Chemical Physics 21, 1087-1092 (from memory).
 */
final class Walk {
    private static final int MILDEST = 4;
    /** Where even this is not enough, the walk stands nearly still. */
    static final int STRICTEST = 1 << 12;

    /** A walk is strict enough where one in so many of its layouts has no breach. */
    private static final int ENOUGH = 5;

    private static final long MOST_STEPS = 20_000_000;
    private static final long MOST_STEPS_OF_ONE = 20_000;

    private final Bench bench;
    private final List<Layer> layers;
    private final UniformRandomProvider random;
    /** By number: layer, group, and place in the group, of each unit that can exchange anything. */
    private final int[][] units;
    /** By layer, for each unit: which unit's contents it holds now. */
    private final List<int[]> contents = new ArrayList<>();

    private int strictness;
    private long breaches;

    Walk(Bench bench, List<Layer> layers, UniformRandomProvider random) {
        this(bench, layers, random, MILDEST);
    }

    /** @param strictness c, 2 or more */
    Walk(Bench bench, List<Layer> layers, UniformRandomProvider random, int strictness) {
        this.strictness = strictness;
        this.bench = bench;
        this.layers = List.copyOf(layers);
        this.random = random;
        this.breaches = bench.breaches();
        var all = new ArrayList<int[]>();
        for (int l = 0; l < layers.size(); l++) {
            contents.add(IntStream.range(0, layers.get(l).units().length).toArray());
            int[][] groups = layers.get(l).groups();
            for (int g = 0; g < groups.length; g++) {
                for (int i = 0; groups[g].length > 1 && i < groups[g].length; i++) {
                    all.add(new int[] {l, g, i});
                }
            }
        }
        this.units = all.toArray(int[][]::new);
    }

    /** How many units can exchange anything. */
    int size() {
        return units.length;
    }

    /** How strict it has become: c. */
    int strictness() {
        return strictness;
    }

    /** Which unit's contents each unit of a layer holds now. */
    int[] contents(int layer) {
        return contents.get(layer);
    }

    /**
     * Walks until it is as strict as it has to be.
     *
     * @param progress gets the share of the most steps there can be that are done
     * @return how many steps were made in vain; 0 where layouts without a breach were met
     */
    long settle(DoubleConsumer progress) {
        long most = Math.min(MOST_STEPS, MOST_STEPS_OF_ONE * units.length);
        long window = Math.max(1000, 20L * units.length);
        long steps = 0;
        while (steps < most) {
            long met = 0;
            for (long i = 0; i < window; i++) {
                step();
                met += breaches == 0 ? 1 : 0;
            }
            if (met * ENOUGH >= window) {
                return 0;
            }
            steps += window;
            strictness = strictness < STRICTEST ? 2 * strictness : MILDEST;
            progress.accept((double) steps / most);
        }
        return Math.max(1, steps);
    }

    /** Walks on until it has been at layouts without a breach so many times more, stays counted. */
    void onward(long visits) {
        for (long met = 0; met < visits; ) {
            step();
            met += breaches == 0 ? 1 : 0;
        }
    }

    private void step() {
        int[] chosen = units[random.nextInt(units.length)];
        var layer = layers.get(chosen[0]);
        int[] group = layer.groups()[chosen[1]];
        int other = random.nextInt(group.length - 1);
        int a = group[chosen[2]];
        int b = group[other < chosen[2] ? other : other + 1];
        exchange(layer, a, b);
        long after = bench.breaches();
        if (isTaken(after - breaches)) {
            breaches = after;
            int[] held = contents.get(chosen[0]);
            int kept = held[a];
            held[a] = held[b];
            held[b] = kept;
        } else {
            exchange(layer, a, b);
        }
    }

    private void exchange(Layer layer, int a, int b) {
        int[] one = layer.units()[a];
        int[] other = layer.units()[b];
        int own = layer.factors()[0];
        boolean alike =
                (bench.level(own, one[0]) == Restraint.NOTHING) == (bench.level(own, other[0]) == Restraint.NOTHING);
        bench.exchange(alike ? layer.factors() : layer.inner(), one, other);
    }

    /** Once in c times c times ... for each breach more. */
    private boolean isTaken(long more) {
        for (long i = 0; i < more; i++) {
            if (random.nextInt(strictness) > 0) {
                return false;
            }
        }
        return true;
    }
}
