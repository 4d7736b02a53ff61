package org.fairtray.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** What is wrong with one file, gathered while it is read. */
final class Problems {
    private final String file;
    private final List<Problem> all = new ArrayList<>();

    Problems(String file) {
        this.file = file;
    }

    /** @param line from 1; 0 for the whole file */
    void add(int line, String found, String expected) {
        add(line, found, expected, Optional.empty());
    }

    void add(int line, String found, String expected, Optional<String> nearest) {
        all.add(new Problem(file, line, found, expected, nearest));
    }

    /** A word that isn't one of those known; {@code what} says what kind of word it is, such as "key". */
    void unknown(int line, String what, String word, Collection<String> known) {
        add(line, "unknown " + what + " " + Wording.quote(word), Wording.oneOf(known), Nearest.to(word, known));
    }

    boolean none() {
        return all.isEmpty();
    }

    /** By line; problems of one line in the order in which they were found. */
    List<Problem> byLine() {
        return all.stream().sorted(Comparator.comparingInt(Problem::line)).toList();
    }

    /** @throws ProblemsException if anything is wrong */
    void throwIfAny() {
        if (!none()) {
            throw new ProblemsException(byLine());
        }
    }
}
