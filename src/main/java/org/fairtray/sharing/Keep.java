package org.fairtray.sharing;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What is left out of a pack unless someone says that it may go along. */
public enum Keep {
    /** Who counted. */
    BY,
    /** What people wrote down beside the counts. */
    NOTES,
    /** When something was counted or drawn, to the minute. */
    TIMES,
    /** The photos in the report. */
    PHOTOS;

    /** What it is called by whoever asks for it. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** What is meant by a word; empty where it is none of these. */
    public static Optional<Keep> of(String word) {
        return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
    }

    /** All their words. */
    public static List<String> words() {
        return Arrays.stream(values()).map(Keep::word).toList();
    }
}
