package org.fairtray.analysis;

import java.util.List;
import java.util.Optional;
import org.fairtray.analysis.models.LevelAverages.Contrast;
import org.fairtray.analysis.models.Yardstick.Spread;
import org.fairtray.findings.Numbers;
import org.fairtray.statistics.Tail;

/**
 * One component of a trend: the coefficient of x^degree in the least squares polynomial of that degree through the
 * averaged levels x, with Student's t and interval.
 *
 * @param degree 1 for the straight line
 * @param contrast of scaled levels
 * @param spread what it is held against; empty where nothing is left
 * @param half the unit of the scaled levels
 */
record TrendComponent(int degree, Contrast contrast, Optional<Spread> spread, double half) {
    private static final List<String> NAMES = List.of("linear", "quadratic", "cubic", "quartic", "quintic");

    String name() {
        return degree <= NAMES.size() ? NAMES.get(degree - 1) : "degree " + degree;
    }

    /** In the unit of the outcome per unit of the factor to the power of the degree; null where no number can hold it. */
    Double estimate() {
        return unscaled(contrast.value());
    }

    /** The end of an interval, below for -1 and above for 1; null without a spread. */
    Double end(int side, double alpha) {
        return spread.map(s -> unscaled(contrast.value() + side * half(s, alpha)))
                .orElse(null);
    }

    /** The same for the scaled levels. */
    Optional<Double> scaledEnd(int side, double alpha) {
        return spread.map(s -> contrast.value() + side * half(s, alpha));
    }

    private static double half(Spread spread, double alpha) {
        return Tail.tQuantile(1 - alpha / 2, spread.degreesOfFreedom()) * Math.sqrt(spread.variance());
    }

    private Double unscaled(double scaled) {
        return Numbers.orNull(scaled / Math.pow(half, degree));
    }

    /** Null without a spread. */
    Double p() {
        return spread.map(s -> p(s.variance(), s.degreesOfFreedom())).orElse(null);
    }

    /** The p that a claim rests on: no spread below what seeds alone give. */
    Optional<Double> heldP() {
        return spread.map(s -> p(s.verdictVariance(), s.degreesOfFreedom()));
    }

    private double p(double variance, double degreesOfFreedom) {
        return Tail.tTwoSided(contrast.value() / Math.sqrt(variance), degreesOfFreedom);
    }
}
