package org.fairtray.followup;

import java.util.List;

/**
 * What becomes of a factor in the follow-up.
 *
 * @param factor its name
 * @param kept whether it is varied again
 * @param levels those that are sown: two or more where it is kept, else the one that all trays get
 * @param why in a sentence
 */
public record Decision(String factor, boolean kept, List<String> levels, String why) {

    /** @throws IllegalArgumentException if a kept factor has fewer than two levels, or another not one */
    public Decision {
        levels = List.copyOf(levels);
        if (kept ? levels.size() < 2 : levels.size() != 1) {
            throw new IllegalArgumentException(factor + (kept ? " kept" : " settled") + " with levels " + levels);
        }
    }

    static Decision keep(String factor, List<String> levels, String why) {
        return new Decision(factor, true, levels, why);
    }

    static Decision settle(String factor, String level, String why) {
        return new Decision(factor, false, List.of(level), why);
    }
}
