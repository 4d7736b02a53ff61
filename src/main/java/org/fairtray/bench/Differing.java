package org.fairtray.bench;

import java.time.Instant;
import org.fairtray.journal.Conflict;
import org.fairtray.journal.Held;
import org.fairtray.journal.Ledger;

/**
 * Two figures for the same frame, neither counter having seen the other's.
 *
 * @param number of the entry that differs; a count that has seen it may settle it
 * @param held the figure that stands meanwhile; its value is empty where none does
 */
public record Differing(long number, String tray, int day, int frame, String column, Figure held, Figure offered) {

    /** A figure, who gave it, and when. */
    public record Figure(String value, String by, String time) {
        static Figure of(Held held) {
            return new Figure(held.value(), held.by(), held.time().toString());
        }
    }

    static Differing of(Conflict conflict, Ledger ledger) {
        var slot = conflict.slot();
        var held = ledger.standing(slot).columns().getOrDefault(conflict.column(), new Held("", 0, "", Instant.EPOCH));
        return new Differing(
                conflict.number(),
                slot.tray(),
                slot.day(),
                slot.frame(),
                conflict.column(),
                Figure.of(held),
                Figure.of(conflict.offered()));
    }
}
