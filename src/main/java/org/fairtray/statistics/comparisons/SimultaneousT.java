package org.fairtray.statistics.comparisons;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/**
 * The largest of k two-sided t of any correlation, such as comparisons estimated from a model. Where the correlations are
 * products lambda_i lambda_j it is {@link Dunnett}'s, exactly; else {@link Directions} works it out.
 *
 * <p>Source: Genz and Bretz (2009), Computation of Multivariate Normal and t Probabilities. Immutable.
 */
public final class SimultaneousT {
    private static final double ROUNDING = 1e-8;

    private final DoubleUnaryOperator upper;

    private SimultaneousT(DoubleUnaryOperator upper) {
        this.upper = upper;
    }

    /**
     * Prepares the distribution.
     *
     * @param correlation k x k, symmetric, 1 on the diagonal, no eigenvalue below 0 (some may be 0); not changed
     * @param df above 0; infinite where the variance is known
     * @throws IllegalArgumentException if the matrix isn't one of correlations or df not above 0
     */
    public static SimultaneousT of(double[][] correlation, double df) {
        check(correlation, df);
        return ProductForm.loadings(correlation)
                .map(loadings -> new SimultaneousT(Dunnett.loadings(loadings, df)::p))
                .orElseGet(() -> new SimultaneousT(Directions.of(correlation, df)::upper));
    }

    private static void check(double[][] correlation, double df) {
        boolean fits = correlation.length > 0;
        for (int i = 0; i < correlation.length && fits; i++) {
            fits = correlation[i].length == correlation.length && Math.abs(correlation[i][i] - 1) < ROUNDING;
            for (int j = 0; j < i && fits; j++) {
                fits = Math.abs(correlation[i][j]) <= 1 + ROUNDING
                        && Math.abs(correlation[i][j] - correlation[j][i]) < ROUNDING;
            }
        }
        if (!fits) {
            throw new IllegalArgumentException("correlations " + Arrays.deepToString(correlation)
                    + ": expected a symmetric matrix with 1 on its diagonal");
        }
        if (!(df > 0)) {
            throw new IllegalArgumentException(df + " degrees of freedom: expected a number above 0");
        }
    }

    /** The adjusted p of a t: P(some |T_i| > |t|). */
    public double p(double t) {
        return upper.applyAsDouble(Math.abs(t));
    }

    /** The t that all |T_i| keep below with this probability, for simultaneous intervals; confidence in (0, 1). */
    public double quantile(double confidence) {
        return Quantile.of(upper, confidence);
    }
}
