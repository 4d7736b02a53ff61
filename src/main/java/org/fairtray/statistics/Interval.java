package org.fairtray.statistics;

/** A confidence interval; low is not above high. */
public record Interval(double low, double high) {

    /** @throws IllegalArgumentException if an end is NaN or low is above high */
    public Interval {
        if (!(low <= high)) {
            throw new IllegalArgumentException("interval from " + low + " to " + high + ": expected low <= high");
        }
    }

    /** Whether both ends lie strictly inside (-margin, margin). */
    public boolean inside(double margin) {
        return -margin < low && high < margin;
    }
}
