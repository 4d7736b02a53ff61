package org.fairtray.findings;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers as findings hold them. */
public final class Numbers {
    private static final MathContext STEADY = new MathContext(11, RoundingMode.HALF_EVEN);

    private Numbers() {}

    /** The number, or null where there is none: NaN and infinity don't get into findings. */
    public static Double orNull(double number) {
        return Double.isFinite(number) ? number : null;
    }

    /**
     * A number without its last digits, which differ from machine to machine. Half a point is then half a point wherever
     * it is rounded, and people read the same figure.
     */
    public static BigDecimal steady(double number) {
        return new BigDecimal(number).round(STEADY);
    }

    /** The rate that a change of its log-odds makes of a rate above 0 and below 1. */
    public static double changed(double rate, double logOdds) {
        return 1 / (1 + Math.exp(-Math.log(rate / (1 - rate)) - logOdds));
    }

    /** Degrees of freedom in words: whole ones as they are, others with a decimal. */
    public static String degrees(double degreesOfFreedom) {
        return degreesOfFreedom == Math.rint(degreesOfFreedom)
                ? Long.toString((long) degreesOfFreedom)
                : String.format(Locale.ROOT, "%.1f", degreesOfFreedom);
    }
}
