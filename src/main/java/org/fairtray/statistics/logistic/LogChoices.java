package org.fairtray.statistics.logistic;

import java.util.List;
import org.apache.commons.math3.special.Gamma;
import org.fairtray.statistics.Count;

/** The constants of likelihoods of counts. */
public final class LogChoices {
    private LogChoices() {}

    /** The sum of log C(m, y) over counts y of m. */
    public static double of(List<Count> counts) {
        return counts.stream().mapToDouble(LogChoices::of).sum();
    }

    private static double of(Count count) {
        double y = count.successes();
        double m = count.trials();
        return Gamma.logGamma(m + 1) - Gamma.logGamma(y + 1) - Gamma.logGamma(m - y + 1);
    }
}
