package org.fairtray.statistics.comparisons;

import java.util.function.Function;

/** Which levels a confidence set holds, when its ends need not enclose it. */
public sealed interface LevelRange {

    /** The levels from low to high. */
    record Between(double low, double high) implements LevelRange {}

    /**
     * The levels up to {@code below} and those from {@code above} on; one of them is infinite where the set is a half-line.
     */
    record Outside(double below, double above) implements LevelRange {}

    /** Every level: the data exclude none. */
    record Anywhere() implements LevelRange {}

    /** Goes by the kind of range. */
    default <T> T match(Function<Between, T> between, Function<Outside, T> outside, Function<Anywhere, T> anywhere) {
        if (this instanceof Between b) {
            return between.apply(b);
        }
        return this instanceof Outside o ? outside.apply(o) : anywhere.apply((Anywhere) this);
    }
}
