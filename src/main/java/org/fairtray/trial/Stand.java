package org.fairtray.trial;

import java.util.List;

/**
 * Where one tray stands.
 *
 * @param at a number from 1 for each place level, outermost first
 */
public record Stand(List<Integer> at) {

    public Stand {
        at = List.copyOf(at);
    }
}
