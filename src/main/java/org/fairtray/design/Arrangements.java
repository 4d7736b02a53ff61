package org.fairtray.design;

import java.util.function.Consumer;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * What chance could have done instead, as far as one term is concerned: the arrangements among which the actual one is
 * one, each as likely as any other where the term does nothing.
 *
 * <p>Source: Edgington and Onghena (2007), Randomization Tests, 4th ed. (the data are permuted as the layout was
 * randomised); section numbers not checked.
 */
public sealed interface Arrangements permits Exchange, Redraw, Kept {
    /** So many arrangements and more are not gone through one by one. */
    int MANY = 20_000;

    /** What is done anew. */
    enum Scheme {
        /** Levels are exchanged among units that share everything else. */
        PERMUTED,
        /** The layout is drawn again from the plan. */
        REDRAWN,
        /** What a model without the term leaves over is exchanged among units. */
        RESIDUALS
    }

    /** What is done anew. */
    Scheme scheme();

    /** What is done anew, as a clause such as "the levels of soak were exchanged among single trays". */
    String description();

    /** How many arrangements there are; infinite where they are {@link #MANY} or more and were not counted. */
    double number();

    /** How many of them give the same F as any one of them, whatever was read, because only levels change names. */
    double alike();

    /** The share of arrangements with an F as large as the largest: p can't be smaller. */
    default double smallestShare() {
        return alike() / number();
    }

    /** Whether there are so few that all can be gone through. */
    default boolean few() {
        return number() < MANY;
    }

    /**
     * Goes through all.
     *
     * @param visitor gets each arrangement in an array that is used again for the next
     */
    void all(Consumer<int[]> visitor);

    /**
     * Draws some, each equally likely.
     *
     * @param visitor gets each arrangement in an array that is used again for the next
     */
    void draw(int draws, UniformRandomProvider random, Consumer<int[]> visitor);
}
