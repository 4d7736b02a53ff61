package org.fairtray.statistics.comparisons;

import java.util.function.DoubleUnaryOperator;

/**
 * The range of k means of equally many values over their common standard error. Given S,
 *
 * <pre>  P(range <= x) = k integral of phi(z) [Phi(z) - Phi(z - x)]^(k - 1) dz</pre>
 *
 * by the trapezoidal rule; then over S.
 *
 * <p>Source: Miller (1981), Simultaneous Statistical Inference, 2nd ed., section 2.1. Immutable.
 */
public final class StudentizedRange {
    private static final double FAR = 13;
    private static final double FAR_DEVIATE = 9.5;

    private final Studentised range;

    private StudentizedRange(Studentised range) {
        this.range = range;
    }

    /**
     * The range of some means.
     *
     * @param means k, 2 or more
     * @param df degrees of freedom of the standard error, above 0; infinite where it is known
     */
    public static StudentizedRange of(int means, double df) {
        if (means < 2) {
            throw new IllegalArgumentException(means + " means: expected 2 or more");
        }
        return new StudentizedRange(Studentised.of(within(means), FAR, df));
    }

    private static DoubleUnaryOperator within(int means) {
        double step = 0.7 / Math.sqrt(1.0 + means);
        return x -> {
            double sum = 0;
            for (int i = (int) Math.floor(-FAR_DEVIATE / step); i * step < FAR_DEVIATE; i++) {
                double z = i * step;
                double between = NormalTable.below(z) - NormalTable.below(z - x);
                sum += NormalTable.density(z) * Math.pow(between, means - 1);
            }
            return sum * step * means;
        };
    }

    /** P(range / standard error of a mean > q), right to 1e-9. */
    public double p(double q) {
        return range.upper(q);
    }

    /** The q that the range keeps below with this probability; confidence in (0, 1). */
    public double quantile(double confidence) {
        return range.quantile(confidence);
    }
}
