package org.fairtray.statistics.logistic;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.strata.Strata;

/**
 * How much more counts differ about their fitted rates than independent trials would.
 *
 * <p>Source: McCullagh and Nelder (1989), Generalized Linear Models, 2nd ed., section 4.5.
 */
public final class Dispersion {
    private Dispersion() {}

    /**
     * Pearson's X2 of n counts y of m about fitted rates p,
     *
     * <pre>  sum over i of (y_i - m_i p_i)^2 / (m_i p_i (1 - p_i))</pre>
     *
     * A count that obeys a fitted rate of exactly 0 or 1 adds nothing.
     *
     * @param counts n counts
     * @param rates n probabilities in [0, 1]
     * @return 0 or more; infinite where a count contradicts a rate of 0 or 1
     * @throws IllegalArgumentException if n differs or a rate is out of range
     */
    public static double pearson(List<Count> counts, double[] rates) {
        return pearson(
                counts,
                rates,
                Grouping.by(java.util.stream.IntStream.range(0, rates.length)
                        .boxed()
                        .toList()));
    }

    /** The same for the counts of each group added up: how much groups differ about their fitted sums. */
    public static double pearson(List<Count> counts, double[] rates, Grouping groups) {
        int n = counts.size();
        if (rates.length != n || groups.size() != n) {
            throw new IllegalArgumentException(n + " counts, " + rates.length + " rates, " + groups);
        }
        var rest = new double[n];
        var variance = new double[n];
        for (int i = 0; i < n; i++) {
            double m = counts.get(i).trials();
            if (!(rates[i] >= 0 && rates[i] <= 1)) {
                throw new IllegalArgumentException("rate " + rates[i] + ": expected 0 to 1");
            }
            rest[i] = counts.get(i).successes() - m * rates[i];
            variance[i] = m * rates[i] * (1 - rates[i]);
        }
        double[] sums = groups.sums(rest);
        double[] variances = groups.sums(variance);
        double total = 0;
        for (int g = 0; g < sums.length; g++) {
            total += sums[g] == 0 ? 0 : sums[g] * sums[g] / variances[g];
        }
        return total;
    }

    /**
     * Pearson's X2 divided among strata as a sum of squares is: what the sums over a stratum's groups differ by, less
     * what its coarser strata account for, each over its residual degrees of freedom. With equal trays it is the
     * residual mean square of the stratum over the binomial variance; so a factor laid on whole stacks is held against
     * the differences between stacks.
     *
     * @param counts n counts
     * @param rates n fitted rates of a model with an intercept
     * @param strata of the n counts, the last telling each apart
     * @param residualDf for each stratum, 0 or more
     * @return for each stratum 0 or more; null where its residual degrees of freedom are 0
     */
    public static List<Double> byStratum(List<Count> counts, double[] rates, Strata strata, List<Integer> residualDf) {
        var parts = new ArrayList<Double>();
        var dispersions = new ArrayList<Double>();
        for (int s = 0; s < strata.size(); s++) {
            double part = pearson(counts, rates, strata.grouping(s))
                    - strata.coarser(s).stream().mapToDouble(parts::get).sum();
            parts.add(Math.max(0, part));
            dispersions.add(residualDf.get(s) == 0 ? null : parts.get(s) / residualDf.get(s));
        }
        return Collections.unmodifiableList(dispersions);
    }
}
