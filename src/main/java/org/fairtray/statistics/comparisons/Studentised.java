package org.fairtray.statistics.comparisons;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.special.Gamma;

/**
 * The distribution of M/S: M some largest difference of normal variables, S^2 an independent mean square with its
 * expectation 1, that is, chi-squared over its degrees of freedom df:
 *
 * <pre>  P(M/S > q) = integral of P(M > qs) g(s) ds,   g the density of S</pre>
 *
 * by Gauss and Legendre's rule in s^(1/3), which takes the edge off g at 0 where df is small.
 *
 * <p>Source: Miller (1981), Simultaneous Statistical Inference, 2nd ed., sections 2.1 and 2.5.
 */
final class Studentised {
    private static final GaussIntegrator RULE = new GaussIntegratorFactory().legendre(96, -1, 1);

    /** Normal deviates beyond which neither end of S matters. */
    private static final double DEVIATES = 9.5;

    private final Chebyshev beyond;
    private final double far;
    private final double df;

    private Studentised(Chebyshev beyond, double far, double df) {
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
        if (!(df > 0)) {
            throw new IllegalArgumentException(df + " degrees of freedom: expected a number above 0");
        }
        return new Studentised(Chebyshev.of(x -> 1 - within.applyAsDouble(x), far), far, df);
    }

    /** P(M/S > q), right to 1e-9. */
    double upper(double q) {
        if (Double.isNaN(q)) {
            throw new IllegalArgumentException("statistic NaN: expected a number");
        }
        if (q <= 0) {
            return 1;
        }
        return Math.min(1, Math.max(0, Double.isInfinite(df) ? beyond.at(q) : integral(q)));
    }

    /** The bounds of S^(2/3), which is nearly normal with mean 1 - 2/(9 df), variance 2/(9 df) (Wilson and Hilferty). */
    private double integral(double q) {
        double variance = 2 / (9 * df);
        double low = Math.sqrt(Math.max(0, 1 - variance - DEVIATES * Math.sqrt(variance)));
        double high = Math.min(Math.sqrt(1 - variance + DEVIATES * Math.sqrt(variance)), Math.cbrt(far / q));
        if (high <= low) {
            return 0;
        }
        double logScale = Math.log(2) + df / 2 * Math.log(df / 2) - Gamma.logGamma(df / 2);
        double sum = 0;
        for (int i = 0; i < RULE.getNumberOfPoints(); i++) {
            double root = (low + high) / 2 + (high - low) / 2 * RULE.getPoint(i);
            double s = root * root * root;
            double density = Math.exp(logScale + (df - 1) * Math.log(s) - df / 2 * s * s);
            sum += RULE.getWeight(i) * 3 * root * root * density * beyond.at(q * s);
        }
        return sum * (high - low) / 2;
    }

    /** The q with P(M/S <= q) = confidence; confidence in (0, 1). */
    double quantile(double confidence) {
        return Quantile.of(this::upper, confidence);
    }
}
