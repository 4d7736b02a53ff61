package org.fairtray.statistics.logistic;

import java.util.List;
import java.util.function.IntConsumer;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/**
 * How unusual a likelihood ratio is, by drawing counts from the smaller model as it was fitted: random intercepts anew for
 * each draw, then counts; both models fitted to them, and their ratio held against the observed one. Needed where the
 * chi-squared distribution is a poor guide: with few units, ratios come out larger than it allows.
 *
 * <pre>  p = (1 + draws whose ratio is at least the observed) / (1 + draws)</pre>
 *
 * <p>Source: Davison and Hinkley (1997), Bootstrap Methods and their Application, section 4.2.
 *
 * @param observed twice the difference of the log-likelihoods of both models, 0 or more
 * @param p above 0, at most 1
 * @param draws how many draws p rests on
 * @param failed how many draws were left out because a fit did not come to rest
 * @param complete whether all draws were made; false where the thread was interrupted
 */
public record ParametricBootstrap(double observed, double p, int draws, int failed, boolean complete) {

    /** What rounding leaves uncertain in a ratio. */
    private static final double ROUNDING = 1e-7;

    /**
     * Draws and fits.
     *
     * @param smaller n rows
     * @param larger n rows, whose columns span those of the smaller
     * @param counts n counts with trials above 0
     * @param groupings of n rows each
     * @param draws how many, 1 or more
     * @param random where chance comes from
     * @param progress is told how many draws are done, after each
     * @return the same for the same draws; where the thread is interrupted, what was found until then, and the thread
     *     stays interrupted
     * @throws IllegalArgumentException if draws are fewer than 1, numbers of rows differ or a count has no trials
     */
    public static ParametricBootstrap of(
            ModelMatrix smaller,
            ModelMatrix larger,
            List<Count> counts,
            List<Grouping> groupings,
            int draws,
            UniformRandomProvider random,
            IntConsumer progress) {
        if (draws < 1) {
            throw new IllegalArgumentException(draws + " draws: expected 1 or more");
        }
        var small = MixedLogisticFit.of(smaller, counts, groupings);
        var large = MixedLogisticFit.of(larger, counts, groupings);
        double observed = Math.max(0, 2 * (large.logLikelihood() - small.logLikelihood()));
        var simulation = new SimulatedCounts(smaller, small, counts, groupings);
        var both = MixedRatio.of(smaller, larger, groupings);
        int done = 0;
        int failed = 0;
        int asLarge = 0;
        while (done < draws && !Thread.currentThread().isInterrupted()) {
            var ratio = both.of(simulation.draw(random));
            if (!ratio.settled()) {
                failed++;
            } else if (ratio.value() >= observed - ROUNDING * (1 + observed)) {
                asLarge++;
            }
            progress.accept(++done);
        }
        int used = done - failed;
        return new ParametricBootstrap(observed, (1.0 + asLarge) / (1.0 + used), used, failed, done == draws);
    }
}
