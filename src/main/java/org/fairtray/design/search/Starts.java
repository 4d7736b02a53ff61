package org.fairtray.design.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.IntStream;

/** Layouts that a search begins with. */
final class Starts {
    /** Random arrays tried for an alpha design, and random layouts beside them. */
    private static final int ARRAYS = 60;

    private Starts() {}

    /**
     * What textbooks construct: for one factor in blocks, and for two-level factors without blocks (with as many columns of
     * interest as factors, candidates can be 2^k only then); else none.
     */
    static List<int[]> textbook(Problem problem, Consumer<int[]> shuffle) {
        var starts = new ArrayList<int[]>();
        int factors = problem.ofInterest().length;
        int digits = Integer.numberOfTrailingZeros(problem.units());
        if (problem.free()
                && problem.blocks().isEmpty()
                && problem.rows().length == 1
                && factors < Integer.SIZE
                && problem.candidates() == 1 << factors
                && problem.units() == 1 << digits) {
            Fraction.runs(factors, digits).ifPresent(starts::add);
        }
        if (!problem.isOneFactor() || problem.blocks().isEmpty()) {
            return starts;
        }
        var blocks = smallest(problem.blocks());
        int k = blocks.get(0).size();
        int v = problem.candidates();
        if (blocks.stream().anyMatch(b -> b.size() != k) || k >= v) {
            return starts;
        }
        if (blocks.size() == v) {
            Cyclic.design(v, k).ifPresent(d -> starts.add(placed(problem, blocks, d)));
        }
        if (v == k * k && blocks.size() % k == 0) {
            SquareLattice.design(k, blocks.size() / k).ifPresent(d -> starts.add(placed(problem, blocks, d)));
        }
        if (v % k == 0 && blocks.size() % (v / k) == 0) {
            for (int i = 0; i < ARRAYS; i++) {
                starts.add(placed(problem, blocks, Alpha.design(v / k, k, blocks.size() / (v / k), shuffle)));
            }
        }
        starts.removeIf(s -> !dealtEvenly(problem, s));
        return starts;
    }

    /** The units of the groups of the grouping with most groups. */
    private static List<List<Integer>> smallest(List<int[]> groupings) {
        List<List<Integer>> best = List.of();
        for (int[] grouping : groupings) {
            var units = units(grouping);
            if (units.size() > best.size()) {
                best = List.copyOf(units.values());
            }
        }
        return best;
    }

    private static Map<Integer, List<Integer>> units(int[] grouping) {
        var units = new TreeMap<Integer, List<Integer>>();
        for (int u = 0; u < grouping.length; u++) {
            units.computeIfAbsent(grouping[u], g -> new ArrayList<>()).add(u);
        }
        return units;
    }

    private static int[] placed(Problem problem, List<List<Integer>> blocks, int[][] design) {
        var given = new int[problem.units()];
        for (int b = 0; b < design.length; b++) {
            for (int i = 0; i < design[b].length; i++) {
                given[blocks.get(b).get(i)] = design[b][i];
            }
        }
        return given;
    }

    /** Interchanges never mend numbers that are uneven within the groups dealt to, so a start must have them right. */
    private static boolean dealtEvenly(Problem problem, int[] given) {
        return units(problem.together()).values().stream().allMatch(group -> {
            var counts = new int[problem.candidates()];
            group.forEach(u -> counts[given[u]]++);
            int least = IntStream.of(counts).min().orElse(0);
            int most = IntStream.of(counts).max().orElse(0);
            return most - least <= 1;
        });
    }

    /** Candidates dealt out in random order, within each group and in all as evenly as can be. */
    static int[] dealt(Problem problem, Consumer<int[]> shuffle) {
        var given = new int[problem.units()];
        Map<Integer, int[]> inAll = new HashMap<>();
        for (var group : units(problem.together()).values()) {
            Map<Integer, int[]> inGroup = new HashMap<>();
            int[] order = group.stream().mapToInt(Integer::intValue).toArray();
            shuffle.accept(order);
            for (int u : order) {
                int kind = problem.kind()[u];
                int[] here = inGroup.computeIfAbsent(kind, k -> new int[problem.candidates()]);
                int[] everywhere = inAll.computeIfAbsent(kind, k -> new int[problem.candidates()]);
                int rarest = rarest(problem, u, here, everywhere, shuffle);
                here[rarest]++;
                everywhere[rarest]++;
                given[u] = rarest;
            }
        }
        return given;
    }

    private static int rarest(Problem problem, int unit, int[] here, int[] everywhere, Consumer<int[]> shuffle) {
        int[] order = IntStream.range(0, problem.candidates()).toArray();
        shuffle.accept(order);
        int rarest = -1;
        for (int c : order) {
            boolean rarer = rarest < 0
                    || here[c] < here[rarest]
                    || (here[c] == here[rarest] && everywhere[c] < everywhere[rarest]);
            if (problem.row(unit, c) != null && rarer) {
                rarest = c;
            }
        }
        return rarest;
    }
}
