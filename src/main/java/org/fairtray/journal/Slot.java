package org.fairtray.journal;

import java.util.Comparator;

/**
 * What one reading is of.
 *
 * @param tray the tray's code
 * @param day days after sowing
 * @param frame the frame's number, from 1
 */
public record Slot(String tray, int day, int frame) {
    /** By day, then tray, then frame. */
    static final Comparator<Slot> ORDER =
            Comparator.comparingInt(Slot::day).thenComparing(Slot::tray).thenComparingInt(Slot::frame);
}
