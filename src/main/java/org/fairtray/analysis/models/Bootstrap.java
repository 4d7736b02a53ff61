package org.fairtray.analysis.models;

import java.util.function.ObjIntConsumer;

/**
 * A parametric bootstrap as it was asked for.
 *
 * @param draws for each term; 0 for none
 * @param seed of the draws, the same for each term
 * @param progress is told, after each draw, the term and how many of its draws are done
 */
public record Bootstrap(int draws, long seed, ObjIntConsumer<String> progress) {
    /** Not asked for. */
    public static final Bootstrap NONE = new Bootstrap(0, 0, (term, done) -> {});

    /** @throws IllegalArgumentException if draws are below 0 */
    public Bootstrap {
        if (draws < 0) {
            throw new IllegalArgumentException(draws + " draws: expected 0 or more");
        }
    }

    boolean wanted() {
        return draws > 0;
    }
}
