package org.fairtray.statistics.pooling;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * The variance between studies, tau^2, by restricted maximum likelihood: the highest of all places where the likelihood stops
 * rising, 0 among them. The slope is looked at on a grid of which each place is about twice the one before, from a hundredth of
 * the smallest v_i to where the likelihood can only fall, and each change from rising to falling is followed to its end by
 * Brent's method. Steps from a start alone, such as Fisher's scoring, can swing for ever, or end on the lower of two tops where the v_i
 * are very unequal.
 *
 * <p>Sources: Viechtbauer (2005), Journal of Educational and Behavioral Statistics 30, 261-293 (REML); Brent (1973), Algorithms
 * for Minimization without Derivatives, chapter 4.
 *
 * @param at the model at that variance
 * @param settled whether a top was found; it isn't where squares of the estimates are too large for a number
 */
record Between(Pool.At at, boolean settled) {
    /** Below this share of the smallest v_i a variance between studies changes next to nothing. */
    private static final double FIRST_PLACE = 0.01;

    /** @param pool with degrees of freedom left */
    static Between of(Pool pool) {
        var before = pool.at(0);
        var tops = new ArrayList<Pool.At>();
        if (before.slope() <= 0) {
            tops.add(before);
        }
        double most = pool.bound();
        if (!Double.isFinite(most)) {
            return new Between(before, false);
        }
        for (double place : places(FIRST_PLACE * pool.smallestVariance(), most)) {
            var here = pool.at(place);
            if (before.slope() > 0 && here.slope() <= 0) {
                Root.of(t -> pool.at(t).slope(), before.tauSquared(), place).ifPresent(t -> tops.add(pool.at(t)));
            }
            before = here;
        }
        var end = before;
        return tops.stream()
                .max(Comparator.comparingDouble(Pool.At::logLikelihood))
                .map(top -> new Between(top, true))
                .orElseGet(() -> new Between(end, false));
    }

    /** The places of the grid after 0; none where nothing at all is left over, so that the last would be 0, too. */
    private static double[] places(double first, double last) {
        if (!(last > 0)) {
            return new double[0];
        }
        double ratio = Math.max(1, last / first);
        int steps = (int) Math.ceil(Math.log(ratio) / Math.log(2));
        return IntStream.rangeClosed(0, steps)
                .mapToDouble(step -> step == steps ? last : first * Math.pow(ratio, (double) step / steps))
                .toArray();
    }
}
