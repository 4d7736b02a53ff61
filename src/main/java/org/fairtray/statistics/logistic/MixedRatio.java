package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/**
 * The likelihood ratio of two nested mixed logistic models, each with its own standard deviations, for any number of sets
 * of counts: what depends on the columns and groupings alone is worked out once. What a set gives depends on no set before
 * it. A workspace, for one thread.
 */
public final class MixedRatio {
    private final ModelMatrix smaller;
    private final ModelMatrix larger;
    private final LaplaceLikelihood ofSmaller;
    private final LaplaceLikelihood ofLarger;

    private MixedRatio(ModelMatrix smaller, ModelMatrix larger, RandomIntercepts structure) {
        this.smaller = smaller;
        this.larger = larger;
        this.ofSmaller = new LaplaceLikelihood(smaller, structure);
        this.ofLarger = new LaplaceLikelihood(larger, structure);
    }

    /**
     * What one set of counts gives.
     *
     * @param value twice the difference of the log-likelihoods, 0 or more
     * @param settled whether both fits came to rest, which they don't where odds are infinite; the value is then what
     *     they had reached
     */
    public record Ratio(double value, boolean settled) {}

    /**
     * The ratio of two models.
     *
     * @param smaller n rows
     * @param larger n rows, whose columns span those of the smaller
     * @param groupings of n rows each
     * @throws IllegalArgumentException if numbers of rows differ
     */
    public static MixedRatio of(ModelMatrix smaller, ModelMatrix larger, List<Grouping> groupings) {
        if (smaller.height() != larger.height()) {
            throw new IllegalArgumentException(
                    smaller.height() + " rows and " + larger.height() + ": expected models of the same rows");
        }
        return new MixedRatio(smaller, larger, new RandomIntercepts(larger.height(), groupings));
    }

    /**
     * Fits both; the standard deviations of the larger are where the smaller starts.
     *
     * @param counts n counts with trials above 0
     */
    public Ratio of(List<Count> counts) {
        var over = MixedMaximum.of(larger, counts, ofLarger, new double[0]);
        double[] guess = Arrays.copyOfRange(over.at(), larger.width(), over.at().length);
        var under = MixedMaximum.of(smaller, counts, ofSmaller, guess);
        return new Ratio(Math.max(0, 2 * (over.value() - under.value())), over.settled() && under.settled());
    }
}
