package org.fairtray.design.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.stream.IntStream;

/**
 * The search for the layout of a {@link Problem} with the largest A-efficiency: from textbook constructions and from
 * random starts, each made better by interchanging what two units got, and where numbers are free by giving a unit another
 * candidate, until nothing gains. It ends at the bound or when its work is done; its work is counted and not timed, so the
 * same chance gives the same layout on any machine.
 *
 * <p>Sources (from memory): Fedorov (1972), Theory of Optimal Experiments (exchange); John and Williams (1995), Cyclic and
 * Computer Generated Designs, 2nd ed. (interchange).
 */
public final class Search {
    /** So many multiplications, less than a second's, and no further restart is begun. */
    private static final double WORK = 5e8;

    /** So many, and even one start is no longer made better. */
    private static final double MOST_WORK = 4e9;

    private static final int MOST_RESTARTS = 200;
    /** Of more candidates than these, a unit tries so many at random. */
    private static final int TRIED = 100;

    private static final double GAIN = 1e-9;

    private final Problem problem;
    private final Within within;
    private final Consumer<int[]> shuffle;
    private final OptionalDouble bound;
    private final double reference;
    private double work;

    private Search(Problem problem, Consumer<int[]> shuffle) {
        this.problem = problem;
        this.within = Within.of(problem.units(), problem.blocks());
        this.shuffle = shuffle;
        this.bound = Bound.of(problem);
        this.reference = Reference.variance(problem);
    }

    /** How many independent comparisons the units give when the differences between these blocks are set aside. */
    public static int comparisons(int units, List<int[]> blocks) {
        return Within.of(units, blocks).dimension();
    }

    /** Whether the units are enough for the columns of interest, and the candidates differ in all of them. */
    public static boolean isPossible(Problem problem) {
        return problem.ofInterest().length <= comparisons(problem.units(), problem.blocks())
                && Reference.variance(problem) > 0;
    }

    /**
     * The best layout that was found.
     *
     * @param shuffle puts numbers in random order
     * @param progress gets the share of the work that is done, from 0 to 1
     */
    public static Found best(Problem problem, Consumer<int[]> shuffle, Consumer<Double> progress) {
        return new Search(problem, shuffle).best(progress);
    }

    private Found best(Consumer<Double> progress) {
        Information best = null;
        var starts = new ArrayList<>(Starts.textbook(problem, shuffle));
        for (int restart = 0; !isBest(best) && isWorthIt(best, restart); restart++) {
            int[] start = restart < starts.size() ? starts.get(restart) : Starts.dealt(problem, shuffle);
            var found = improved(new Information(problem, within, start));
            if (best == null || found.trace() < best.trace() * (1 - GAIN)) {
                best = found;
            }
            progress.accept(Math.min(1, Math.max(work / WORK, (double) restart / MOST_RESTARTS)));
        }
        return new Found(best.given(), efficiency(best), bound);
    }

    private boolean isWorthIt(Information best, int restart) {
        return best == null || (work < WORK && restart < MOST_RESTARTS);
    }

    private double efficiency(Information information) {
        return information.varianceOfInterest().map(v -> reference / v).orElse(0.0);
    }

    private boolean isBest(Information best) {
        return best != null && bound.isPresent() && !problem.free() && efficiency(best) > bound.getAsDouble() - GAIN;
    }

    private Information improved(Information information) {
        int[] order = IntStream.range(0, problem.units()).toArray();
        shuffle.accept(order);
        boolean gained = true;
        while (gained && work < MOST_WORK && !isBest(information)) {
            gained = false;
            for (int u : order) {
                gained |= interchanged(information, u);
                gained |= problem.free() && exchanged(information, u);
            }
        }
        return information;
    }

    private boolean interchanged(Information information, int u) {
        int partner = -1;
        double least = information.trace() * (1 - GAIN);
        for (int w = 0; w < problem.units(); w++) {
            if (problem.together()[w] == problem.together()[u]
                    && problem.kind()[w] == problem.kind()[u]
                    && information.given(w) != information.given(u)) {
                double after = information.afterInterchange(u, w);
                work += 10.0 * problem.columns();
                if (after < least) {
                    least = after;
                    partner = w;
                }
            }
        }
        if (partner >= 0) {
            information.interchange(u, partner);
            countRefresh();
        }
        return partner >= 0;
    }

    private boolean exchanged(Information information, int u) {
        int better = -1;
        double least = information.trace() * (1 - GAIN);
        for (int c : tried()) {
            if (c != information.given(u) && problem.row(u, c) != null) {
                double after = information.afterExchange(u, c);
                work += (10.0 + problem.columns()) * problem.columns();
                if (after < least) {
                    least = after;
                    better = c;
                }
            }
        }
        if (better >= 0) {
            information.exchange(u, better);
            countRefresh();
        }
        return better >= 0;
    }

    private int[] tried() {
        int[] all = IntStream.range(0, problem.candidates()).toArray();
        if (all.length <= TRIED) {
            return all;
        }
        shuffle.accept(all);
        return Arrays.copyOf(all, TRIED);
    }

    private void countRefresh() {
        double p = problem.columns();
        work += p * p * (3.0 * problem.units() + p);
    }
}
