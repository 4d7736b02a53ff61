package org.fairtray.statistics.comparisons;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.special.Gamma;

/**
 * S, the root of a mean square with expectation 1: S² is chi-squared over its degrees of freedom. What is averaged over S is
 * found by Gauss and Legendre's rule in s^(1/3), which takes the edge off the density at 0 where there are few.
 *
 * @param df degrees of freedom, above 0
 */
record RootMeanSquare(double df) {
    private static final GaussIntegrator RULE = new GaussIntegratorFactory().legendre(96, -1, 1);

    /** Normal deviates beyond which neither end of S matters. */
    private static final double DEVIATES = 9.5;

    /** E S = √(2 / df) Γ((df + 1) / 2) / Γ(df / 2). */
    double mean() {
        return Math.sqrt(2 / df) * Math.exp(Gamma.logGamma((df + 1) / 2) - Gamma.logGamma(df / 2));
    }

    /**
     * The mean of a function of S that is 0 above some s. S^(2/3) is nearly normal with mean 1 − 2/(9 df) and variance
     * 2/(9 df) (Wilson and Hilferty).
     */
    double mean(DoubleUnaryOperator function, double most) {
        double variance = 2 / (9 * df);
        double low = Math.sqrt(Math.max(0, 1 - variance - DEVIATES * Math.sqrt(variance)));
        double high = Math.min(Math.sqrt(1 - variance + DEVIATES * Math.sqrt(variance)), Math.cbrt(most));
        if (high <= low) {
            return 0;
        }
        double logScale = Math.log(2) + df / 2 * Math.log(df / 2) - Gamma.logGamma(df / 2);
        double sum = 0;
        for (int i = 0; i < RULE.getNumberOfPoints(); i++) {
            double root = (low + high) / 2 + (high - low) / 2 * RULE.getPoint(i);
            double s = root * root * root;
            double density = Math.exp(logScale + (df - 1) * Math.log(s) - df / 2 * s * s);
            sum += RULE.getWeight(i) * 3 * root * root * density * function.applyAsDouble(s);
        }
        return sum * (high - low) / 2;
    }
}
