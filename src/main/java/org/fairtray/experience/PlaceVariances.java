package org.fairtray.experience;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.sizing.Normal;
import org.fairtray.statistics.strata.Strata;

/**
 * Variances between units of each stratum, from the residual mean squares of an analysis of variance. A mean square is
 * expected to be ξ_s = σ² of the stratum itself times its trays in a unit, and the same for every stratum whose units
 * lie inside; solved from the trays outward, with 0 for what comes out below.
 *
 * <p>Sources: Bailey (2008), Design of Comparative Experiments, chapter 10 (expected mean squares of strata); for
 * uncertainty Box and Tiao (1973), Bayesian Inference in Statistical Analysis, section 5.2 (from memory): a mean square
 * known, ξ_s is spread as mean square × df / χ² of df.
 */
final class PlaceVariances {
    private final Strata strata;
    private final List<Double> meanSquares;
    private final int[] df;

    /**
     * @param meanSquares by stratum, the last being that of trays; null where nothing is left over
     * @param df of the mean squares
     */
    PlaceVariances(Strata strata, List<Double> meanSquares, int[] df) {
        this.strata = strata;
        this.meanSquares = new ArrayList<>(meanSquares);
        this.df = df.clone();
    }

    /** Whether anything was left over between units of a stratum. */
    boolean knows(int stratum) {
        return meanSquares.get(stratum) != null;
    }

    /** The best guess by stratum; 0 where nothing is known. */
    double[] guess() {
        return solved(meanSquares.stream().mapToDouble(m -> m == null ? 0 : m).toArray());
    }

    /** One of the sets of variances that could have given these mean squares. */
    double[] draw(UniformRandomProvider random) {
        return solved(IntStream.range(0, df.length)
                .mapToDouble(s -> knows(s) ? meanSquares.get(s) * df[s] / chiSquared(df[s], random) : 0)
                .toArray());
    }

    private static double chiSquared(int df, UniformRandomProvider random) {
        double sum = 0;
        for (int i = 0; i < df; i++) {
            double z = Normal.draw(random);
            sum += z * z;
        }
        return sum;
    }

    private double[] solved(double[] expected) {
        var variances = new double[expected.length];
        for (int s = expected.length - 1; s >= 0; s--) {
            if (knows(s)) {
                double inside = 0;
                for (int t = s + 1; t < expected.length; t++) {
                    if (strata.grouping(t).finerThan(strata.grouping(s))) {
                        inside += strata.grouping(t).sizeSeenFromInside() * variances[t];
                    }
                }
                variances[s] =
                        Math.max(0, expected[s] - inside) / strata.grouping(s).sizeSeenFromInside();
            }
        }
        return variances;
    }
}
