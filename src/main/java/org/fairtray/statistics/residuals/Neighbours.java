package org.fairtray.statistics.residuals;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Vectors;

/**
 * Whether neighbours are alike: Moran's I of residuals,
 *
 * <pre>  I = (n / pairs) sum over pairs of e_i e_j / sum of e_i^2</pre>
 *
 * about 0 where neighbours have nothing to do with each other, towards 1 where they are alike. Its p is the share of
 * exchanges of the residuals within their groups, the observed one among them, that give as large an I or larger.
 *
 * <p>Source: Moran (1950), Biometrika 37, 17-23; Cliff and Ord (1981), Spatial Processes, section 2.4.
 *
 * @param moran the statistic
 * @param p that of neighbours alike, by exchanges
 */
public record Neighbours(double moran, double p) {

    /** Two things side by side. */
    public record Pair(int one, int other) {}

    /**
     * Looks at the pairs.
     *
     * @param residuals n numbers, not all 0
     * @param pairs one or more
     * @param exchangeable groups within which residuals are exchanged
     * @param exchanges how many, 1 or more
     * @throws IllegalArgumentException if there is nothing to look at
     */
    public static Neighbours of(
            double[] residuals, List<Pair> pairs, Grouping exchangeable, int exchanges, UniformRandomProvider random) {
        double squares = Vectors.squaredLength(residuals);
        if (pairs.isEmpty() || !(squares > 0) || exchanges < 1) {
            throw new IllegalArgumentException(pairs.size() + " pairs, sum of squares " + squares + ", " + exchanges
                    + " exchanges: expected some of each");
        }
        double scale = residuals.length / (pairs.size() * squares);
        double observed = products(residuals, pairs);
        int[][] groups = members(exchangeable);
        double[] exchanged = residuals.clone();
        int asLarge = 1;
        for (int e = 0; e < exchanges; e++) {
            exchange(exchanged, groups, random);
            // The same sum in another order differs by rounding.
            asLarge += products(exchanged, pairs) >= observed - 1e-12 * squares ? 1 : 0;
        }
        return new Neighbours(observed * scale, asLarge / (exchanges + 1.0));
    }

    private static double products(double[] residuals, List<Pair> pairs) {
        double sum = 0;
        for (var pair : pairs) {
            sum += residuals[pair.one] * residuals[pair.other];
        }
        return sum;
    }

    private static int[][] members(Grouping grouping) {
        int[] sizes = grouping.sizes();
        var members = new int[sizes.length][];
        for (int g = 0; g < sizes.length; g++) {
            members[g] = new int[sizes[g]];
        }
        int[] of = grouping.of();
        for (int i = of.length - 1; i >= 0; i--) {
            sizes[of[i]]--;
            members[of[i]][sizes[of[i]]] = i;
        }
        return members;
    }

    /** Fisher and Yates within each group. */
    private static void exchange(double[] values, int[][] groups, UniformRandomProvider random) {
        for (int[] members : groups) {
            for (int i = members.length - 1; i > 0; i--) {
                int other = members[random.nextInt(i + 1)];
                double kept = values[members[i]];
                values[members[i]] = values[other];
                values[other] = kept;
            }
        }
    }
}
