package org.fairtray.statistics.comparisons;

import java.util.Optional;

/** Whether correlations are products of one number for each variable. */
final class ProductForm {
    /** Correlations come out of a fitted model. */
    private static final double NEAR = 1e-7;

    /** Nearer to 1 the integral over what the variables share would need too many steps. */
    private static final double LARGEST = 0.9995;

    private ProductForm() {}

    /** The lambda with lambda_i lambda_j = rho_ij, k numbers; empty where there are none between -1 and 1. */
    static Optional<double[]> loadings(double[][] correlation) {
        return Optional.of(candidate(correlation)).filter(loadings -> fits(loadings, correlation));
    }

    /** What they must be if they are: from the first three, rho_01 rho_02 / rho_12 is the square of the first. */
    private static double[] candidate(double[][] correlation) {
        int k = correlation.length;
        var loadings = new double[k];
        if (k == 1 || correlation[0][1] == 0) {
            return loadings;
        }
        loadings[0] = Math.sqrt(
                k == 2 ? Math.abs(correlation[0][1]) : correlation[0][1] * correlation[0][2] / correlation[1][2]);
        for (int j = 1; j < k; j++) {
            loadings[j] = correlation[0][j] / loadings[0];
        }
        return loadings;
    }

    private static boolean fits(double[] loadings, double[][] correlation) {
        for (int i = 0; i < loadings.length; i++) {
            if (!(Math.abs(loadings[i]) <= LARGEST)) {
                return false;
            }
            for (int j = 0; j < i; j++) {
                if (!(Math.abs(loadings[i] * loadings[j] - correlation[i][j]) < NEAR)) {
                    return false;
                }
            }
        }
        return true;
    }
}
