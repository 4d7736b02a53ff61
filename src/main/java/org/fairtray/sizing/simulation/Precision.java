package org.fairtray.sizing.simulation;

/**
 * How long to go on simulating: until every judge's interval is narrow enough, or the trials run out.
 *
 * @param most simulated trials of each term, 1 or more
 * @param halfWidth of the interval of a power, half its whole width, from 0; with 0 all trials are simulated
 */
public record Precision(int most, double halfWidth) {

    /** @throws IllegalArgumentException if either is out of range */
    public Precision {
        if (most < 1 || !(halfWidth >= 0)) {
            throw new IllegalArgumentException(
                    most + " trials, half width " + halfWidth + ": expected 1 or more, and 0 or more");
        }
    }
}
