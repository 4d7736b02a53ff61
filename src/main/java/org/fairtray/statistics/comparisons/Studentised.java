package org.fairtray.statistics.comparisons;

import java.util.function.DoubleUnaryOperator;

/**
 * The distribution of M/S: M some largest difference of normal variables, S^2 an independent mean square with its
 * expectation 1, that is, chi-squared over its degrees of freedom df:
 *
 * <pre>  P(M/S > q) = integral of P(M > qs) g(s) ds,   g the density of S</pre>
 *
 * by {@link RootMeanSquare}.
 *
 * <p>Source: Miller (1981), Simultaneous Statistical Inference, 2nd ed., sections 2.1 and 2.5.
 */
final class Studentised {
    private final Chebyshev beyond;
    private final double far;
    private final double df;

    private Studentised(Chebyshev beyond, double far, double df) {
        if (!(df > 0)) {
            throw new IllegalArgumentException(df + " degrees of freedom: expected a number above 0");
        }
        this.beyond = beyond;
        this.far = far;
        this.df = df;
    }

    /**
     * Prepares the distribution.
     *
     * @param within P(M <= x), smooth
     * @param far where P(M > x) is below 1e-15
     * @param df above 0; infinite where the variance is known
     */
    static Studentised of(DoubleUnaryOperator within, double far, double df) {
        return new Studentised(Chebyshev.of(x -> 1 - within.applyAsDouble(x), far), far, df);
    }

    /** The same largest difference over another mean square. */
    Studentised with(double otherDf) {
        return new Studentised(beyond, far, otherDf);
    }

    /** P(M/S > q), right to 1e-9. */
    double upper(double q) {
        if (Double.isNaN(q)) {
            throw new IllegalArgumentException("statistic NaN: expected a number");
        }
        if (q <= 0) {
            return 1;
        }
        return Math.min(
                1,
                Math.max(
                        0,
                        Double.isInfinite(df)
                                ? beyond.at(q)
                                : new RootMeanSquare(df).mean(s -> beyond.at(q * s), far / q)));
    }

    /** The q with P(M/S <= q) = confidence; confidence in (0, 1). */
    double quantile(double confidence) {
        return Quantile.of(this::upper, confidence);
    }
}
