package org.fairtray.trial;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.OptionalInt;

/**
 * What was read off one frame of one tray on one day.
 *
 * @param tray the tray's code
 * @param day days after sowing
 * @param frame the frame's number, from 1
 * @param sown seeds sown in the frame, where the readings say
 * @param values by column: outcomes, germinated, through; a column that was not read is absent
 * @param notes every other column as it was written, by column; an empty cell is absent
 */
public record Reading(
        String tray, int day, int frame, OptionalInt sown, Map<String, Double> values, Map<String, String> notes) {

    /** The same with other notes. */
    public Reading noted(Map<String, String> otherNotes) {
        return new Reading(tray, day, frame, sown, values, otherNotes);
    }

    public Reading {
        values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
        notes = Collections.unmodifiableMap(new LinkedHashMap<>(notes));
    }
}
