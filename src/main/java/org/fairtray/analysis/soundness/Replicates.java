package org.fairtray.analysis.soundness;

import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.Dispersion;
import org.fairtray.statistics.residuals.ReplicateRange;

/**
 * Trays that were treated alike and stood together.
 *
 * @param trays their numbers, two or more
 * @param counts one for each
 */
record Replicates(List<Integer> trays, List<Count> counts) {
    /** The error rate of the seed tester's tables. */
    static final double ERROR = 0.025;

    /** Larger counts are held against chi-squared: the exact sum would take long and say the same. */
    private static final long MOST_SEEDS = 20_000;

    private Count sum() {
        return counts.stream().reduce(new Count(0, 0), Count::plus);
    }

    private boolean equalTrials() {
        return counts.stream().mapToLong(Count::trials).distinct().count() == 1
                && counts.get(0).trials() <= MOST_SEEDS;
    }

    private int range() {
        var successes = counts.stream().map(Count::successes).toList();
        return (int) (Collections.max(successes) - Collections.min(successes));
    }

    /** The table's tolerance, where the table holds. */
    private OptionalInt tabled() {
        boolean holds = counts.size() == ToleranceTable.REPLICATES
                && counts.stream().allMatch(c -> c.trials() == ToleranceTable.SEEDS);
        return holds ? ToleranceTable.of((int) Math.round(sum().rate() * 100)) : OptionalInt.empty();
    }

    boolean isTabled() {
        return tabled().isPresent();
    }

    /** The chance of so much difference, or more, from seeds alone; by chi-squared where trays have different numbers. */
    double p() {
        if (sum().allOrNone()) {
            return 1;
        }
        double rate = sum().rate();
        if (equalTrials()) {
            int trials = (int) counts.get(0).trials();
            return ReplicateRange.of(counts.size(), trials, rate).atLeast(range());
        }
        var rates = Stream.generate(() -> rate)
                .limit(counts.size())
                .mapToDouble(Double::doubleValue)
                .toArray();
        return Tail.chiSquared(Dispersion.pearson(counts, rates, single()), counts.size() - 1.0);
    }

    private Grouping single() {
        return Grouping.by(trays);
    }

    /** Whether they differ by more than the tolerance. */
    boolean beyond() {
        var tolerance = tabled();
        return tolerance.isPresent() ? range() > tolerance.getAsInt() : p() <= ERROR;
    }
}
