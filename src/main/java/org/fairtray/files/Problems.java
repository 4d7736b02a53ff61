package org.fairtray.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** What is wrong with one file, gathered while it is read. */
public final class Problems {
    /** Beyond so many, what was meant isn't looked for any more: in a large file that takes long. */
    private static final int MOST_LOOKED_UP = 50;

    private final String file;
    private final List<Problem> all = new ArrayList<>();

    /** Nothing yet; {@code file} is what messages call it. */
    public Problems(String file) {
        this.file = file;
    }

    /** Notes something that is wrong; {@code line} is from 1, or 0 for the whole file. */
    public void add(int line, String found, String expected) {
        add(line, found, expected, Optional.empty());
    }

    void add(int line, String found, String expected, Optional<String> nearest) {
        all.add(new Problem(file, line, found, expected, nearest));
    }

    /** A word that isn't one of those known; {@code what} says what kind of word it is, such as "key". */
    void unknown(int line, String what, String word, Collection<String> known) {
        var nearest = all.size() < MOST_LOOKED_UP ? Nearest.to(word, known) : Optional.<String>empty();
        add(line, "unknown " + what + " " + Wording.quote(word), Wording.oneOf(known), nearest);
    }

    /** Whether nothing is wrong so far. */
    public boolean none() {
        return all.isEmpty();
    }

    /** By line; problems of one line in the order in which they were found. */
    List<Problem> byLine() {
        return all.stream().sorted(Comparator.comparingInt(Problem::line)).toList();
    }

    /**
     * Goes on only where nothing is wrong.
     *
     * @throws ProblemsException if anything is
     */
    public void throwIfAny() {
        if (!none()) {
            throw new ProblemsException(byLine());
        }
    }
}
