package org.fairtray.statistics.comparisons;

import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Holm's step-down adjustment of several p-values, which keeps the chance of any false claim at alpha.
 *
 * <p>Source: Holm (1979), Scandinavian Journal of Statistics 6, 65-70.
 */
public final class Holm {
    private Holm() {}

    /**
     * Adjusted p-values in the order given: the i-th smallest of m is multiplied by m - i + 1, never below the one
     * before it, at most 1.
     *
     * @param p each in [0, 1]
     */
    public static double[] adjust(double... p) {
        int[] order = IntStream.range(0, p.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> p[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        var adjusted = new double[p.length];
        double largest = 0;
        for (int rank = 0; rank < order.length; rank++) {
            largest = Math.max(largest, Math.min(1, p[order[rank]] * (p.length - rank)));
            adjusted[order[rank]] = largest;
        }
        return adjusted;
    }
}
