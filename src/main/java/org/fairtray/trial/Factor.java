package org.fairtray.trial;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;

/**
 * Something the grower varies on purpose, such as soaking, cover weight or the mat.
 *
 * @param name the grower's own name for it, not blank
 * @param unit the unit of numeric levels, such as h or kg; empty for kinds such as mats
 * @param levels two or more different levels, as the plan writes them, in the plan's order
 * @param appliedTo the place level whose units get one level each; {@link Place#TRAY} for single trays
 */
public record Factor(String name, Optional<String> unit, List<String> levels, String appliedTo) {

    /** @throws IllegalArgumentException if the name is blank, or levels are fewer than two or repeated */
    public Factor {
        levels = List.copyOf(levels);
        if (name.isBlank() || levels.size() < 2 || new HashSet<>(levels).size() != levels.size()) {
            throw new IllegalArgumentException("factor '" + name + "' with levels " + levels
                    + ": expected a name and two or more different levels");
        }
    }

    /** Whether every level is a number, so that a trend can be asked for. */
    public boolean numeric() {
        return levels.stream().allMatch(Numbers::isNumber);
    }

    /** A level with its unit for people, such as "8 h" or "hemp". */
    public String describe(String level) {
        return unit.map(u -> level + " " + u).orElse(level);
    }
}
