package org.fairtray.statistics.pooling;

import java.util.List;
import java.util.Optional;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * Do small studies find more (or less) than large ones? Egger's regression: y_i / s_i on 1 / s_i, with s_i the standard errors,
 * by least squares. The intercept is 0 where size and estimate have nothing to do with each other. It is no proof that small
 * studies without a finding were kept back: they may differ in other ways. With fewer than some ten studies it sees little.
 *
 * <p>Source: Egger, Davey Smith, Schneider and Minder (1997), BMJ 315, 629-634.
 *
 * @param intercept how many standard errors a very small study's estimate lies off
 * @param standardError of the intercept
 * @param t their ratio
 * @param degreesOfFreedom k - 2
 * @param p two-sided
 */
public record SmallStudies(double intercept, double standardError, double t, int degreesOfFreedom, double p) {
    private static final double ROUNDING = 1e-24;

    /** Empty with fewer than three studies, where all are of one size, or where the line leaves nothing over. */
    public static Optional<SmallStudies> of(List<Study> studies) {
        int df = studies.size() - 2;
        if (df < 1) {
            return Optional.empty();
        }
        var precision = studies.stream().mapToDouble(s -> 1 / s.standardError()).toArray();
        var ratio = studies.stream()
                .mapToDouble(s -> s.estimate() / s.standardError())
                .toArray();
        double middle = mean(precision);
        double spread = 0;
        double together = 0;
        for (int i = 0; i < ratio.length; i++) {
            spread += (precision[i] - middle) * (precision[i] - middle);
            together += (precision[i] - middle) * ratio[i];
        }
        if (!(spread > ROUNDING * Vectors.squaredLength(precision))) {
            return Optional.empty();
        }
        double slope = together / spread;
        double intercept = mean(ratio) - slope * middle;
        double left = 0;
        for (int i = 0; i < ratio.length; i++) {
            double rest = ratio[i] - intercept - slope * precision[i];
            left += rest * rest;
        }
        if (!(left > ROUNDING * Vectors.squaredLength(ratio))) {
            return Optional.empty();
        }
        double error = Math.sqrt(left / df * (1.0 / ratio.length + middle * middle / spread));
        double t = intercept / error;
        return Optional.of(new SmallStudies(intercept, error, t, df, Tail.tTwoSided(t, df)));
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }
}
