package org.fairtray.archive;

import java.util.Optional;

/**
 * Which trials are looked for. Words are found anywhere in what they are looked for in, whatever the case of their letters.
 *
 * @param factor in a factor's name
 * @param medium in a level of a factor, or in what was the same for all trays
 * @param word in the title
 * @param protocol the SHA-256 of the plan, whole
 * @param withdrawn whether those taken back are looked for, instead of those that are there
 */
public record Search(
        Optional<String> crop,
        Optional<String> factor,
        Optional<String> medium,
        Optional<String> word,
        Optional<String> protocol,
        boolean withdrawn) {

    /** All trials that are there. */
    public static Search all() {
        return new Search(
                Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), false);
    }

    public Search crop(String words) {
        return new Search(Optional.of(words), factor, medium, word, protocol, withdrawn);
    }

    public Search factor(String words) {
        return new Search(crop, Optional.of(words), medium, word, protocol, withdrawn);
    }

    public Search medium(String words) {
        return new Search(crop, factor, Optional.of(words), word, protocol, withdrawn);
    }

    public Search word(String words) {
        return new Search(crop, factor, medium, Optional.of(words), protocol, withdrawn);
    }

    public Search protocol(String hash) {
        return new Search(crop, factor, medium, word, Optional.of(hash), withdrawn);
    }

    /** The trials that were taken back. */
    public Search ofWithdrawn() {
        return new Search(crop, factor, medium, word, protocol, true);
    }
}
