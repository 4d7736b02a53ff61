package org.fairtray.sizing;

import org.fairtray.trial.Counting;

/**
 * How large a trial is: how often its layout is repeated, and what is counted in a tray.
 *
 * @param times how often the layout is repeated, above 0; need not be whole
 * @param frames counting frames in a tray, 1 or more
 * @param seedsPerFrame seeds in a frame, 1 or more
 */
public record Option(double times, int frames, int seedsPerFrame) {

    /** @throws IllegalArgumentException if any is out of range */
    public Option {
        if (!(times > 0) || frames < 1 || seedsPerFrame < 1) {
            throw new IllegalArgumentException(times + " times, " + frames + " frames of " + seedsPerFrame
                    + " seeds: expected above 0, and 1 or more");
        }
    }

    /** What a plan says. */
    public static Option of(Counting counting) {
        return new Option(1, counting.framesPerTray(), counting.seedsPerFrame());
    }

    /** The seeds counted in a tray. */
    public int seeds() {
        return Math.multiplyExact(frames, seedsPerFrame);
    }

    /** The same with the layout repeated so often. */
    public Option repeated(double often) {
        return new Option(often, frames, seedsPerFrame);
    }

    /** The same with another number of seeds in a frame. */
    public Option withSeeds(int inOneFrame) {
        return new Option(times, frames, inOneFrame);
    }
}
