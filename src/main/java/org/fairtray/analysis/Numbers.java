package org.fairtray.analysis;

/** Numbers as findings hold them. */
final class Numbers {
    private Numbers() {}

    /** The number, or null where there is none: NaN and infinity don't get into findings. */
    static Double orNull(double number) {
        return Double.isFinite(number) ? number : null;
    }
}
