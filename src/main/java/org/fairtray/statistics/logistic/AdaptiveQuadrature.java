package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/**
 * A mixed logistic model with one grouping fitted by adaptive quadrature: how far the Laplace approximation of
 * {@link MixedLogisticFit} is from the likelihood itself. The climb starts from that fit.
 *
 * @param coefficients in the order of the model's columns
 * @param standardDeviation of the intercepts, log-odds, 0 or more; next to 0 where they vanish
 * @param logLikelihood with the binomial coefficients log C(m, y)
 * @param settled whether both fits came to rest
 */
record AdaptiveQuadrature(double[] coefficients, double standardDeviation, double logLikelihood, boolean settled) {
    /** At 0 the likelihood is level in the standard deviation, so a climb from there would not start. */
    private static final double LEAST_START = 0.1;

    /**
     * Fits n counts.
     *
     * @param model n rows with independent columns
     * @param counts n counts with trials above 0
     * @param grouping of n rows
     * @param points of the rule, 1 to 100; 1 is the Laplace approximation
     * @throws IllegalArgumentException if numbers of rows differ, a count has no trials or points are out of range
     */
    static AdaptiveQuadrature of(ModelMatrix model, List<Count> counts, Grouping grouping, int points) {
        var rule = GaussHermite.of(points);
        var laplace = MixedLogisticFit.of(model, counts, List.of(grouping));
        var likelihood = new QuadratureLikelihood(model, counts, grouping, rule);
        int width = model.width();
        var start = new double[width + 1];
        var variances = new double[width + 1][width + 1];
        for (int j = 0; j < width; j++) {
            start[j] = laplace.estimates().coefficient(j);
            variances[j][j] = Math.pow(laplace.estimates().standardError(j), 2);
        }
        start[width] = Math.max(laplace.standardDeviations()[0], LEAST_START);
        variances[width][width] = 1.0 / grouping.groups();
        var top = QuasiNewton.climb(likelihood, start, variances);
        return new AdaptiveQuadrature(
                Arrays.copyOf(top.at(), width),
                Math.abs(top.at()[width]),
                top.value(),
                laplace.settled() && top.settled());
    }
}
