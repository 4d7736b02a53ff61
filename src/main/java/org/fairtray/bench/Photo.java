package org.fairtray.bench;

import org.fairtray.journal.Event;

/** A photo of a tray. */
public record Photo(String file, String tray, int day, String by) {
    static Photo of(Event.Photographed taken) {
        return new Photo(taken.file(), taken.tray(), taken.day(), taken.by());
    }
}
