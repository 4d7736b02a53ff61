package org.fairtray.statistics.logistic;

import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.special.Gamma;
import org.fairtray.statistics.Count;

/** The constants of likelihoods of counts. */
public final class LogChoices {
    /** Trays seldom hold more seeds; the logarithm of the gamma function takes most of the time of a small fit. */
    private static final double[] LOG_FACTORIALS =
            IntStream.range(0, 1024).mapToDouble(n -> Gamma.logGamma(n + 1.0)).toArray();

    private LogChoices() {}

    /** The sum of log C(m, y) over counts y of m. */
    public static double of(List<Count> counts) {
        return counts.stream().mapToDouble(LogChoices::of).sum();
    }

    private static double of(Count count) {
        long y = count.successes();
        long m = count.trials();
        return logFactorial(m) - logFactorial(y) - logFactorial(m - y);
    }

    private static double logFactorial(long n) {
        return n < LOG_FACTORIALS.length ? LOG_FACTORIALS[(int) n] : Gamma.logGamma(n + 1.0);
    }
}
