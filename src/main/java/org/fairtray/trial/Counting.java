package org.fairtray.trial;

import java.util.List;
import java.util.Optional;

/**
 * When and how trays are counted.
 *
 * @param days days after sowing, rising; sowing is day 0
 * @param framesPerTray counting frames in a tray, 1 or more; 1 if the whole tray is counted
 * @param seedsPerFrame seeds sown in a frame, used where the readings don't say
 * @param cumulative whether a count is all so far; otherwise only what is new since the last reading
 * @param tray the size of a tray, known where that of a frame is
 * @param frame the size of a counting frame whose position in the tray is drawn by lot
 * @param margin cm along the edges of a tray in which no frame lies, 0 or more
 */
public record Counting(
        List<Integer> days,
        int framesPerTray,
        int seedsPerFrame,
        boolean cumulative,
        Optional<Area> tray,
        Optional<Area> frame,
        double margin) {

    /**
     * @throws IllegalArgumentException if there is no day, days don't rise, frames or seeds are below 1, or a frame has
     *     no tray to lie in
     */
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
        if ((frame.isPresent() && tray.isEmpty()) || margin < 0) {
            throw new IllegalArgumentException("frame " + frame + " in tray " + tray + ", margin " + margin
                    + ": expected the size of both, from 0");
        }
    }

    /** How many frames have room in a tray, side by side and clear of the margin; any number where they have no size. */
    public int framesThatFit() {
        return frame.map(f -> fitting(tray.orElseThrow().across(), f.across())
                        * fitting(tray.orElseThrow().deep(), f.deep()))
                .orElse(Integer.MAX_VALUE);
    }

    private int fitting(double whole, double part) {
        return (int) Math.max(0, Math.floor((whole - 2 * margin) / part));
    }

    /** Counting whose frames are laid as one likes. */
    public Counting(List<Integer> days, int framesPerTray, int seedsPerFrame, boolean cumulative) {
        this(days, framesPerTray, seedsPerFrame, cumulative, Optional.empty(), Optional.empty(), 0);
    }
}
