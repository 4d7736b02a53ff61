package org.fairtray.bench;

import org.fairtray.journal.Ledger;

/** A photo of a tray. */
public record Photo(String file, String tray, int day, boolean inReport, String by) {
    static Photo of(Ledger.Photo photo) {
        var taken = photo.taken();
        return new Photo(taken.file(), taken.tray(), taken.day(), photo.inReport(), taken.by());
    }
}
