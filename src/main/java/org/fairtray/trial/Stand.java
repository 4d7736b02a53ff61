package org.fairtray.trial;

import java.util.Comparator;
import java.util.List;

/**
 * Where one tray stands.
 *
 * @param at a number from 1 for each place level, outermost first
 */
public record Stand(List<Integer> at) {
    /** Numbers of units in walking order: by the outermost, then the next; lists of the same length. */
    public static final Comparator<List<Integer>> WALK = (one, other) -> {
        int differing = 0;
        while (differing < one.size() - 1 && one.get(differing).equals(other.get(differing))) {
            differing++;
        }
        return Integer.compare(one.get(differing), other.get(differing));
    };

    public Stand {
        at = List.copyOf(at);
    }
}
