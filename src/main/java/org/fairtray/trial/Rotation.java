package org.fairtray.trial;

import java.util.List;

/**
 * Trays that change places on some days, so that each stands at several places of one level.
 *
 * @param level the place level whose places are exchanged; a tray keeps its place at all others
 * @param days the days after sowing on which trays move, rising, from 1
 */
public record Rotation(String level, List<Integer> days) {

    /** @throws IllegalArgumentException if there is no day, or days don't rise from 1 on */
    public Rotation {
        days = List.copyOf(days);
        int before = 0;
        for (int day : days) {
            if (day <= before) {
                throw new IllegalArgumentException("days " + days + ": expected rising ones from 1 on");
            }
            before = day;
        }
        if (days.isEmpty()) {
            throw new IllegalArgumentException("a rotation without days: expected one or more");
        }
    }
}
