package org.fairtray.analysis;

import org.fairtray.analysis.models.Comparison;
import org.fairtray.analysis.models.Yardstick.Spread;
import org.fairtray.statistics.Tail;

/**
 * A comparison with the spread that it is held against, null where there is none: intervals and tests by Student's t.
 *
 * @param logOddsSpread the spread of its log-odds difference
 */
record Measured(Comparison comparison, Spread spread, Spread logOddsSpread) {

    boolean sure() {
        return spread != null;
    }

    double degreesOfFreedom() {
        return spread.degreesOfFreedom();
    }

    /** The difference over its standard error; null without a spread. */
    Double t() {
        return sure() ? Double.valueOf(comparison.difference() / Math.sqrt(spread.variance())) : null;
    }

    Double p() {
        return sure() ? Double.valueOf(Tail.tTwoSided(t(), degreesOfFreedom())) : null;
    }

    /** The t that an interval of a difference alone takes. */
    double quantile(double alpha) {
        return Tail.tQuantile(1 - alpha / 2, degreesOfFreedom());
    }

    /** Half the width of an interval, given its t; null without a spread. */
    Double half(double quantile) {
        return sure() ? Double.valueOf(quantile * Math.sqrt(spread.variance())) : null;
    }

    Double low(double quantile) {
        return sure() ? Double.valueOf(comparison.difference() - half(quantile)) : null;
    }

    Double high(double quantile) {
        return sure() ? Double.valueOf(comparison.difference() + half(quantile)) : null;
    }

    /** The ends that a verdict counts on: never nearer than what seeds alone would give. */
    Double verdictLow(double alpha) {
        return sure() ? Double.valueOf(comparison.difference() - verdictHalf(alpha)) : null;
    }

    Double verdictHigh(double alpha) {
        return sure() ? Double.valueOf(comparison.difference() + verdictHalf(alpha)) : null;
    }

    private double verdictHalf(double alpha) {
        return quantile(alpha) * Math.sqrt(spread.verdictVariance());
    }

    /** Half the width of the interval of the log-odds difference; null without a spread. */
    Double halfOdds(double alpha) {
        return logOddsSpread == null
                ? null
                : Double.valueOf(Tail.tQuantile(1 - alpha / 2, logOddsSpread.degreesOfFreedom())
                        * Math.sqrt(logOddsSpread.variance()));
    }
}
