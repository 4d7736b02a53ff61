package org.fairtray.sharing;

/**
 * Something that stays at home.
 *
 * @param what in words
 * @param keep what to ask for if it shall go along
 */
public record LeftOut(String what, Keep keep) {

    /** For people, with how it would go along. */
    public String sentence() {
        return what + " (--with " + keep.word() + ")";
    }
}
