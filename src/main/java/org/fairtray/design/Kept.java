package org.fairtray.design;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * Of other arrangements those alone that keep the restrictions which the actual layout keeps. Where these are rare among
 * all, a {@link Walk} goes out from the actual one in both directions: however far it comes, the actual one is as likely to
 * have any rank among those met as any other.
 *
 * <p>Source (from memory): Besag and Clifford (1989), Generalized Monte Carlo significance tests, Biometrika 76, 633-642.
 */
public final class Kept implements Arrangements {
    /** So many arrangements at most are gone through to see how many are kept. */
    private static final double MOST_COUNTED = 200_000;

    private static final int TRIED = 200;
    private static final int FEWEST_KEPT = 20;

    private final Arrangements base;
    private final Moved moved;
    private final double number;

    /** How arrangements are seen on a bench. */
    interface Moved {
        /** The actual layout, on a bench of its own. */
        Bench actual();

        /** Makes a bench what it is under an arrangement. */
        void arrange(Bench bench, int[] arrangement);

        /** How units exchange what they get; what it asks besides is told to the bench. */
        Layer layer(Bench bench);

        /** The arrangement at which a walk from the actual layout has come. */
        int[] arrangement(Bench bench, int[] contents);
    }

    Kept(Arrangements base, Moved moved) {
        this.base = base;
        this.moved = moved;
        this.number = count();
    }

    /** What these are a part of. */
    public Arrangements base() {
        return base;
    }

    @Override
    public Scheme scheme() {
        return base.scheme();
    }

    @Override
    public String description() {
        return base.description() + ", as far as the plan's restrictions allow";
    }

    @Override
    public double number() {
        return number;
    }

    /** As in all arrangements: restrictions don't know levels by name. */
    @Override
    public double alike() {
        return base.alike();
    }

    private double count() {
        if (base.number() > MOST_COUNTED) {
            return Double.POSITIVE_INFINITY;
        }
        int[] found = new int[1];
        all(a -> found[0]++);
        return found[0];
    }

    @Override
    public void all(Consumer<int[]> visitor) {
        base.all(keeping(visitor));
    }

    private Consumer<int[]> keeping(Consumer<int[]> visitor) {
        var bench = moved.actual();
        return arrangement -> {
            moved.arrange(bench, arrangement);
            if (bench.breaches() == 0) {
                visitor.accept(arrangement);
            }
        };
    }

    @Override
    public void draw(int draws, UniformRandomProvider random, Consumer<int[]> visitor) {
        int[] tried = new int[1];
        base.draw(TRIED, random, keeping(a -> tried[0]++));
        if (tried[0] >= FEWEST_KEPT) {
            int[] done = new int[1];
            var counted = keeping(a -> {
                if (done[0]++ < draws) {
                    visitor.accept(a);
                }
            });
            while (done[0] < draws) {
                base.draw(TRIED, random, counted);
            }
        } else {
            int strictness = strictness(random);
            int back = random.nextInt(draws + 1);
            walk(back, strictness, random, visitor);
            walk(draws - back, strictness, random, visitor);
        }
    }

    private int strictness(UniformRandomProvider random) {
        var bench = moved.actual();
        var walk = new Walk(bench, List.of(moved.layer(bench)), random);
        return walk.settle(share -> {}) > 0 ? Walk.STRICTEST : walk.strictness();
    }

    private void walk(int draws, int strictness, UniformRandomProvider random, Consumer<int[]> visitor) {
        var bench = moved.actual();
        var walk = new Walk(bench, List.of(moved.layer(bench)), random, strictness);
        int between = 1 + walk.size() / 2;
        for (int draw = 0; draw < draws; draw++) {
            walk.onward(between);
            visitor.accept(moved.arrangement(bench, walk.contents(0)));
        }
    }

    /** Units of a stratum that exchange the levels of some factors; arrangements are those of an {@link Exchange}. */
    record Units(Bench start, Supplier<Bench> again, int[] factors, int[][] stands, int[][] groups) implements Moved {
        @Override
        public Bench actual() {
            return again.get();
        }

        @Override
        public void arrange(Bench bench, int[] sources) {
            for (int u = 0; u < sources.length; u++) {
                bench.take(factors, stands[sources[u]], start, stands[u]);
            }
        }

        @Override
        public Layer layer(Bench bench) {
            return new Layer(factors, factors, stands, groups);
        }

        @Override
        public int[] arrangement(Bench bench, int[] contents) {
            var sources = new int[contents.length];
            IntStream.range(0, contents.length).forEach(u -> sources[contents[u]] = u);
            return sources;
        }
    }

    /**
     * Rows and columns that one factor is drawn over; arrangements are those of a {@link Redraw}.
     *
     * @param order the units, group by group, row by row, column by column
     */
    record Crossed(Supplier<Bench> again, int factor, int[][] stands, Step step, int[] order) implements Moved {
        @Override
        public Bench actual() {
            return again.get();
        }

        @Override
        public void arrange(Bench bench, int[] levels) {
            for (int u = 0; u < levels.length; u++) {
                bench.give(factor, stands[u], levels[u]);
            }
        }

        @Override
        public Layer layer(Bench bench) {
            int row = step.columns() * step.perCell();
            int[][] rows = IntStream.range(0, order.length / row)
                    .mapToObj(r -> IntStream.range(r * row, (r + 1) * row).toArray())
                    .toArray(int[][]::new);
            int[] one = {factor};
            var layer = new Layer(
                    one, one, IntStream.of(order).mapToObj(u -> stands[u]).toArray(int[][]::new), rows);
            layer.cross(step, bench);
            return layer;
        }

        @Override
        public int[] arrangement(Bench bench, int[] contents) {
            return IntStream.range(0, stands.length)
                    .map(u -> bench.level(factor, stands[u][0]))
                    .toArray();
        }
    }
}
