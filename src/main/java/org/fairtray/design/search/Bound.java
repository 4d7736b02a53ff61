package org.fairtray.design.search;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * What the average efficiency factor of a block design for one factor can't exceed. Several block systems at once leave no
 * more than each of them alone, so the smallest of their bounds holds.
 *
 * <p>Sources (all from memory): the harmonic mean of the efficiency factors is at most their mean, which is largest where
 * every block holds the treatments as equally often as it can; Jarrett (1977), Biometrika 64, 67-72: numbers with a given
 * mean and sum of squares have the largest harmonic mean where all but one are equal, or, where that one would exceed 1,
 * where some are 1 and the rest equal; Patterson and Williams (1976), Biometrika 63, 83-92: the resolvable bound; Williams,
 * Patterson and John (1976), Journal of the Royal Statistical Society B 38, 296-301: with two sets, from how the blocks of
 * one cross those of the other. That concurrences are whole numbers gives the least sum of squares.
 */
final class Bound {
    private Bound() {}

    /** The bound of a problem; empty where it is neither of one factor nor of a full set of combinations. */
    static OptionalDouble of(Problem problem) {
        if (!problem.isOneFactor()) {
            return problem.rows().length == 1 && isOrthogonal(problem) ? OptionalDouble.of(1) : OptionalDouble.empty();
        }
        double least = 1;
        for (int[] block : problem.blocks()) {
            least = Math.min(least, of(problem.candidates(), block));
            least = Math.min(least, resolvable(problem, block));
        }
        return OptionalDouble.of(least);
    }

    /** Whether candidates that come equally often have every contrast apart from all others, so that none does better. */
    private static boolean isOrthogonal(Problem problem) {
        double[][] rows = problem.rows()[0];
        for (double[] row : rows) {
            if (row == null) {
                return false;
            }
        }
        int n = problem.units();
        return Math.abs(Reference.variance(problem) * n / problem.ofInterest().length - 1) < 1e-9;
    }

    private static double of(int v, int[] block) {
        var sizes = sizes(block);
        int k = sizes.values().iterator().next();
        if (sizes.values().stream().allMatch(s -> s == k) && block.length % v == 0) {
            return equalBlocks(v, k, sizes.size());
        }
        double lost = 0;
        for (int size : sizes.values()) {
            lost += lost(v, size);
        }
        return 1 - lost / block.length;
    }

    /** So many blocks of k, treatments equally often. */
    private static double equalBlocks(int v, int k, int blocks) {
        double mean = 1 - lost(v, k) / k;
        if (k >= v) {
            return mean;
        }
        double r = (double) blocks * k / v;
        double concurrence = r * (k - 1) / (v - 1);
        return harmonic(v - 1, mean, v * (v - 1.0) * split(concurrence) / (r * k * r * k));
    }

    /** How many units' worth of information on the mean contrast a block of k takes away at least. */
    private static double lost(int v, int k) {
        return ((double) v * leastSquares(k, v) / k - k) / (v - 1);
    }

    /** Where blocks make up full sets, and there are few: some contrasts lose nothing, the rest share the loss. */
    private static double resolvable(Problem problem, int[] block) {
        int v = problem.candidates();
        var sizes = sizes(block);
        var sets = sizes(problem.together());
        int k = sizes.values().iterator().next();
        boolean resolved = sizes.values().stream().allMatch(s -> s == k)
                && sets.values().stream().allMatch(s -> s == v)
                && v % k == 0
                && IntStream.range(0, block.length)
                        .allMatch(i -> IntStream.range(0, i)
                                .allMatch(j -> block[i] != block[j] || problem.together()[i] == problem.together()[j]));
        int r = sets.size();
        int s = v / k;
        int touched = r * (s - 1);
        if (!resolved || r < 2 || touched >= v - 1) {
            return 1;
        }
        if (r == 2) {
            return (v - 1) / (v - 1 - touched + 2 * touched / equalBlocks(s, k, s));
        }
        double squares = r * (r - 1.0) * s * s * split((double) k / s) / ((double) r * k * r * k);
        double rest = harmonic(touched, 1 - 1.0 / r, squares);
        return (v - 1) / (v - 1 - touched + touched / rest);
    }

    /** The largest harmonic mean of m numbers up to 1 with this mean and this sum of squared differences from it. */
    private static double harmonic(int m, double mean, double squares) {
        double large = mean + Math.sqrt(squares * (m - 1) / m);
        double small = mean - Math.sqrt(squares / ((double) m * Math.max(1, m - 1)));
        double share = 1.0 / m;
        if (large > 1 && mean < 1) {
            double variance = squares / m;
            large = 1;
            small = mean - variance / (1 - mean);
            share = variance / (variance + (1 - mean) * (1 - mean));
        }
        return small > 0 ? 1 / ((1 - share) / small + share / large) : mean;
    }

    /** The least mean squared difference of whole numbers from this mean of theirs. */
    private static double split(double mean) {
        double part = mean - Math.floor(mean + 1e-9);
        return Math.max(0, part * (1 - part));
    }

    /** The least sum of squares of v whole numbers that add up to k. */
    private static long leastSquares(int k, int v) {
        long each = k / v;
        long more = k % v;
        return more * (each + 1) * (each + 1) + (v - more) * each * each;
    }

    private static Map<Integer, Integer> sizes(int[] block) {
        var sizes = new HashMap<Integer, Integer>();
        for (int b : block) {
            sizes.merge(b, 1, Integer::sum);
        }
        return sizes;
    }
}
