package org.fairtray.statistics.comparisons;

import java.util.Optional;

/**
 * Whether correlations are products of one number for each variable, or so near to it that p is the same to 1e-4: an error
 * of d in every one of k correlations moves p = 0.05 by less than 0.02 d with three comparisons, 0.1 d with ten (from
 * Dunnett's own probabilities at correlations 0 and 0.5), and the nearest products leave errors of both signs.
 */
final class ProductForm {
    /** Rates that differ move the correlations of balanced comparisons by this much at most. */
    private static final double NEAR = 5e-3;

    private static final int STEPS = 50;

    /** Nearer to 1 the integral over what the variables share would need too many steps. */
    private static final double LARGEST = 0.9995;

    private ProductForm() {}

    /** The lambda with lambda_i lambda_j = rho_ij, k numbers; empty where there are none between -1 and 1. */
    static Optional<double[]> loadings(double[][] correlation) {
        var first = candidate(correlation);
        return Optional.of(nearest(first, correlation)).filter(loadings -> fits(loadings, correlation));
    }

    /** Least squares for one variable after the other. */
    private static double[] nearest(double[] first, double[][] correlation) {
        var loadings = first.clone();
        for (int step = 0; step < STEPS; step++) {
            for (int i = 0; i < loadings.length; i++) {
                double products = 0;
                double squares = 0;
                for (int j = 0; j < loadings.length; j++) {
                    products += i == j ? 0 : correlation[i][j] * loadings[j];
                    squares += i == j ? 0 : loadings[j] * loadings[j];
                }
                loadings[i] = loadings.length > 2 && squares > 0 ? products / squares : loadings[i];
            }
        }
        return loadings;
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
