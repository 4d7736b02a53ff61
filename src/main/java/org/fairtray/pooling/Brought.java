package org.fairtray.pooling;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.pooling.contribution.Contribution.TrayCounts;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.pooling.Study;
import org.fairtray.trial.Numbers;

/**
 * What one trial says of one question, in common words.
 *
 * @param trial its number among those pooled
 * @param levels the level that its own estimates are against, then the others
 * @param values rate or mean of each level
 * @param estimates of each level but the first, less the first
 * @param covariance of these
 * @param trays its counts, where they are wanted tray by tray
 */
record Brought(
        int trial,
        List<String> levels,
        List<Double> values,
        double[] estimates,
        double[][] covariance,
        Optional<Trays> trays) {

    /**
     * Counts tray by tray.
     *
     * @param factor the trial's own name of the factor
     * @param common level by the trial's own
     */
    record Trays(TrayCounts counts, String factor, Map<String, String> common) {}

    boolean compares(String level, String against) {
        return levels.contains(level) && levels.contains(against);
    }

    /** One level less another. */
    Study study(String level, String against) {
        double[] weights = new double[estimates.length];
        add(weights, level, 1);
        add(weights, against, -1);
        return combined(weights);
    }

    private void add(double[] weights, String level, double share) {
        int at = levels.indexOf(level);
        if (at > 0) {
            weights[at - 1] += share;
        }
    }

    private Study combined(double[] weights) {
        double estimate = 0;
        double variance = 0;
        for (int i = 0; i < weights.length; i++) {
            estimate += weights[i] * estimates[i];
            for (int j = 0; j < weights.length; j++) {
                variance += weights[i] * weights[j] * covariance[i][j];
            }
        }
        return new Study(estimate, variance);
    }

    /** The rate or mean of a level. */
    double value(String level) {
        return values.get(levels.indexOf(level));
    }

    /**
     * The straight line through the levels, by generalised least squares: with differences d of the levels from the first,
     * estimates y and their covariance V, d'V⁻¹y / d'V⁻¹d with variance 1 / d'V⁻¹d.
     *
     * <p>Source: Greenland and Longnecker (1992), American Journal of Epidemiology 135, 1301-1309.
     *
     * @return empty where a level is no number, or the covariance can't be inverted
     */
    Optional<Study> slope() {
        if (!levels.stream().allMatch(Numbers::isNumber)) {
            return Optional.empty();
        }
        double first = Double.parseDouble(levels.get(0));
        double[] steps = levels.stream()
                .skip(1)
                .mapToDouble(l -> Double.parseDouble(l) - first)
                .toArray();
        return Cholesky.of(covariance).map(c -> {
            double[] solved = c.solve(steps);
            double across = IntStream.range(0, steps.length)
                    .mapToDouble(i -> solved[i] * estimates[i])
                    .sum();
            double along = IntStream.range(0, steps.length)
                    .mapToDouble(i -> solved[i] * steps[i])
                    .sum();
            return new Study(across / along, 1 / along);
        });
    }
}
