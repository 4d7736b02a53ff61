package org.fairtray.findings;

import java.util.Locale;

/** Numbers as findings hold them. */
public final class Numbers {
    private Numbers() {}

    /** The number, or null where there is none: NaN and infinity don't get into findings. */
    public static Double orNull(double number) {
        return Double.isFinite(number) ? number : null;
    }

    /** Degrees of freedom in words: whole ones as they are, others with a decimal. */
    public static String degrees(double degreesOfFreedom) {
        return degreesOfFreedom == Math.rint(degreesOfFreedom)
                ? Long.toString((long) degreesOfFreedom)
                : String.format(Locale.ROOT, "%.1f", degreesOfFreedom);
    }
}
