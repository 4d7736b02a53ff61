package org.fairtray.trial;

import java.util.List;

/**
 * When and how trays are counted.
 *
 * @param days days after sowing, rising; sowing is day 0
 * @param framesPerTray counting frames in a tray, 1 or more; 1 if the whole tray is counted
 * @param seedsPerFrame seeds sown in a frame, used where the readings don't say
 * @param cumulative whether a count is all so far; otherwise only what is new since the last reading
 */
public record Counting(List<Integer> days, int framesPerTray, int seedsPerFrame, boolean cumulative) {

    /** @throws IllegalArgumentException if there is no day, days don't rise, or frames or seeds are below 1 */
    public Counting {
        days = List.copyOf(days);
        boolean rising = !days.isEmpty() && days.get(0) >= 0;
        for (int i = 1; i < days.size(); i++) {
            rising &= days.get(i) > days.get(i - 1);
        }
        if (!rising || framesPerTray < 1 || seedsPerFrame < 1) {
            throw new IllegalArgumentException("counting on days " + days + ", " + framesPerTray + " frames of "
                    + seedsPerFrame + " seeds: expected rising days, at least one frame and one seed");
        }
    }
}
