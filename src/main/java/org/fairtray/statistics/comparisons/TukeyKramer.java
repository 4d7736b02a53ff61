package org.fairtray.statistics.comparisons;

import org.fairtray.statistics.Interval;

/**
 * All pairs of k means compared at once. With equal sizes the chance of any false claim is as stated; with unequal ones
 * (each pair with its own standard error, Kramer) it is at most that.
 *
 * <pre>  p = P(Q > sqrt(2) |d| / se),   interval d -+ q se / sqrt(2),   Q the studentised range</pre>
 *
 * <p>Source: Kramer (1956), Biometrics 12, 307-310; Hayter (1984), Annals of Statistics 12, 61-75 (never too many false
 * claims). Immutable.
 */
public final class TukeyKramer {
    private final StudentizedRange range;
    private final double quantile;

    private TukeyKramer(StudentizedRange range, double quantile) {
        this.range = range;
        this.quantile = quantile;
    }

    /**
     * Prepares the comparisons.
     *
     * @param means k, 2 or more: all that are compared with each other
     * @param df degrees of freedom of the standard errors, above 0; infinite where they are known
     * @param confidence of all intervals together, in (0, 1)
     */
    public static TukeyKramer of(int means, double df, double confidence) {
        var range = StudentizedRange.of(means, df);
        return new TukeyKramer(range, range.quantile(confidence));
    }

    /** The standard error of the difference of two means of n and m values with this residual variance. */
    public static double standardError(double variance, double n, double m) {
        return Math.sqrt(variance * (1 / n + 1 / m));
    }

    /** The adjusted p of a difference; its standard error above 0. */
    public double p(double difference, double standardError) {
        require(standardError);
        return range.p(Math.sqrt(2) * Math.abs(difference) / standardError);
    }

    /** The interval of a difference, all intervals holding at once; its standard error above 0. */
    public Interval interval(double difference, double standardError) {
        require(standardError);
        double half = quantile * standardError / Math.sqrt(2);
        return new Interval(difference - half, difference + half);
    }

    private static void require(double standardError) {
        if (!(standardError > 0)) {
            throw new IllegalArgumentException("standard error " + standardError + ": expected a number above 0");
        }
    }
}
