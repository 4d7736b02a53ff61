package org.fairtray.findings;

/** Numbers as findings hold them. */
public final class Numbers {
    private Numbers() {}

    /** The number, or null where there is none: NaN and infinity don't get into findings. */
    public static Double orNull(double number) {
        return Double.isFinite(number) ? number : null;
    }
}
