package org.fairtray.statistics.comparisons;

import java.util.Optional;
import org.fairtray.statistics.Tail;

/**
 * The level at which a fitted b_0 + b_1 x + b_2 x^2 turns, -b_1 / 2b_2, with the levels x that a t test of the slope
 * b_1 + 2 b_2 x = 0 doesn't exclude (Fieller):
 *
 * <pre>  (b_1 + 2 b_2 x)^2 &lt;= t^2 (v_11 + 4 x v_12 + 4 x^2 v_22)</pre>
 *
 * They lie between two ends only where b_2 itself differs from 0 at the same level of confidence; otherwise the turning
 * point may be anywhere but between two ends, or anywhere at all.
 *
 * <p>Source: Fieller (1954), Journal of the Royal Statistical Society B 16, 175-185; Williams (1959), Regression Analysis,
 * chapter 6.
 *
 * @param level the turning point, in the unit of x; with little curvature it may lie far from every level tried
 * @param kind whether the curve is highest or lowest there
 * @param range the confidence set; it holds {@code level}
 */
public record BestLevel(double level, Kind kind, LevelRange range) {

    /** What turns. */
    public enum Kind {
        MAXIMUM,
        MINIMUM
    }

    /**
     * Works it out.
     *
     * @param slope b_1
     * @param curvature b_2
     * @param covariance v_11, v_12; v_12, v_22: of the two
     * @param df degrees of freedom of the covariance, above 0; infinite where it is known
     * @param confidence in (0, 1)
     * @return empty where there is no curvature or a variance is 0
     */
    public static Optional<BestLevel> of(
            double slope, double curvature, double[][] covariance, double df, double confidence) {
        if (covariance.length != 2 || !(df > 0) || !(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException("covariance of " + covariance.length + " rows, " + df
                    + " degrees of freedom, confidence " + confidence + ": expected 2, above 0, between 0 and 1");
        }
        if (curvature == 0 || !(covariance[0][0] > 0) || !(covariance[1][1] > 0)) {
            return Optional.empty();
        }
        double t = Double.isInfinite(df)
                ? Tail.normalQuantile((1 + confidence) / 2)
                : Tail.tQuantile((1 + confidence) / 2, df);
        double square = 4 * (curvature * curvature - t * t * covariance[1][1]);
        double linear = 4 * (slope * curvature - t * t * covariance[0][1]);
        double constant = slope * slope - t * t * covariance[0][0];
        return Optional.of(new BestLevel(
                -slope / (2 * curvature),
                curvature < 0 ? Kind.MAXIMUM : Kind.MINIMUM,
                range(square, linear, constant)));
    }

    /** Where square x^2 + linear x + constant isn't above 0. */
    private static LevelRange range(double square, double linear, double constant) {
        double discriminant = linear * linear - 4 * square * constant;
        if (square == 0 && linear != 0) {
            double end = -constant / linear;
            return linear > 0
                    ? new LevelRange.Outside(end, Double.POSITIVE_INFINITY)
                    : new LevelRange.Outside(Double.NEGATIVE_INFINITY, end);
        }
        if (square <= 0 && discriminant <= 0) {
            return new LevelRange.Anywhere();
        }
        double q = -(linear + Math.copySign(Math.sqrt(Math.max(0, discriminant)), linear)) / 2;
        double one = q / square;
        double other = q == 0 ? 0 : constant / q;
        double low = Math.min(one, other);
        double high = Math.max(one, other);
        return square > 0 ? new LevelRange.Between(low, high) : new LevelRange.Outside(low, high);
    }
}
