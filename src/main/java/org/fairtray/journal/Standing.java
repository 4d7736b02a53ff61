package org.fairtray.journal;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What stands for one slot.
 *
 * @param sequence the number of the newest entry about it, whether that changed a figure or not
 * @param columns every figure that was ever given, by column
 */
public record Standing(Slot slot, long sequence, Map<String, Held> columns) {
    public Standing {
        columns = Collections.unmodifiableMap(new LinkedHashMap<>(columns));
    }

    /** The text of a column; empty where there is none. */
    public String text(String column) {
        var held = columns.get(column);
        return held == null ? "" : held.value();
    }

    /** The columns that aren't empty. */
    public Map<String, String> cells() {
        var cells = new LinkedHashMap<String, String>();
        columns.forEach((column, held) -> {
            if (!held.value().isEmpty()) {
                cells.put(column, held.value());
            }
        });
        return cells;
    }

    /** Whether every figure and note was taken back, so that all there is to say is who did it when. */
    public boolean holdsNothing() {
        return Ledger.ASIDE.containsAll(cells().keySet());
    }

    static Standing empty(Slot slot) {
        return new Standing(slot, 0, Map.of());
    }
}
