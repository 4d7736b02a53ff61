package org.fairtray.statistics;

import java.util.Arrays;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.special.Gamma;

/**
 * Tail probabilities of the usual test statistics, by the incomplete beta and gamma functions so that small ones keep
 * their digits (one minus a distribution function loses them).
 *
 * <p>Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 26.4.19, 26.5.27, 26.6.2.
 */
public final class Tail {
    /** Quantiles of chi-squared can be as small as any number: this one is taken for nothing. */
    private static final double TINY = 1e-25;

    private Tail() {}

    /**
     * P(F > f) of the F distribution.
     *
     * @param f 0 or more
     * @param numerator degrees of freedom, above 0
     * @param denominator degrees of freedom, above 0
     */
    public static double f(double f, double numerator, double denominator) {
        require(f >= 0 && numerator > 0 && denominator > 0, "F", f, numerator, denominator);
        return Double.isInfinite(f)
                ? 0
                : Beta.regularizedBeta(denominator / (denominator + numerator * f), denominator / 2, numerator / 2);
    }

    /** P(X > x) of the chi-squared distribution; x 0 or more, df above 0. */
    public static double chiSquared(double x, double df) {
        require(x >= 0 && df > 0, "chi-squared", x, df);
        if (x == 0 || Double.isInfinite(x)) {
            return x == 0 ? 1 : 0;
        }
        return Gamma.regularizedGammaQ(df / 2, x / 2);
    }

    /** P(|T| > |t|) of Student's t; df above 0. */
    public static double tTwoSided(double t, double df) {
        require(!Double.isNaN(t) && df > 0, "t", t, df);
        return f(t * t, 1, df);
    }

    /** The t below which a proportion p of Student's distribution lies; p in (0, 1), df above 0. */
    public static double tQuantile(double p, double df) {
        require(p > 0 && p < 1 && df > 0, "t quantile", p, df);
        return new TDistribution(null, df).inverseCumulativeProbability(p);
    }

    /** The x below which a proportion p of the chi-squared distribution lies; p in (0, 1), df above 0. */
    public static double chiSquaredQuantile(double p, double df) {
        require(p > 0 && p < 1 && df > 0, "chi-squared quantile", p, df);
        return new ChiSquaredDistribution(null, df, TINY).inverseCumulativeProbability(p);
    }

    /** The z below which a proportion p of the normal distribution lies; p in (0, 1). */
    public static double normalQuantile(double p) {
        require(p > 0 && p < 1, "normal quantile", p);
        double z = new NormalDistribution(null, 0, 1).inverseCumulativeProbability(p);
        return p < 0.5 ? closer(closer(z, p), p) : z;
    }

    /** One step of Newton's. Far down in the lower tail a quantile found from 1 - 2p keeps few digits of a small p. */
    private static double closer(double z, double p) {
        double below = Erf.erfc(-z / Math.sqrt(2)) / 2;
        double density = Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
        return z - (below - p) / density;
    }

    private static void require(boolean holds, String what, double... arguments) {
        if (!holds) {
            throw new IllegalArgumentException(what + " of " + Arrays.toString(arguments) + ": out of range");
        }
    }
}
