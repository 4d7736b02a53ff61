package org.fairtray.analysis.models;

import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.trial.Scale;

/**
 * The variance that a tray has on a scale from its seeds alone, averaged over trays: the least that any yardstick can
 * honestly be. Rates are drawn a little towards a half, so that trays of 0 or 100 % don't claim to be without error.
 *
 * <p>Source: McCullagh and Nelder (1989), Generalized Linear Models, 2nd ed., section 4.1.6 (variances of transformed
 * proportions); Agresti and Coull (1998), The American Statistician 52, 119-126 (adding two successes and two failures).
 */
final class SeedVariance {
    private SeedVariance() {}

    static double on(Scale scale, List<Count> counts) {
        return counts.stream().mapToDouble(c -> on(scale, c)).average().orElse(0);
    }

    private static double on(Scale scale, Count count) {
        double n = count.trials();
        double p = (count.successes() + 2) / (n + 4);
        return switch (scale) {
            case ANGULAR -> 1 / (4 * n);
            case PROPORTION -> p * (1 - p) / n;
            case LOGIT -> 1 / (n * p * (1 - p));
        };
    }
}
