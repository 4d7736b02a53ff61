package org.fairtray.bench;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.fairtray.files.ReadingCells;
import org.fairtray.journal.Standing;

/**
 * What stands for one frame of one tray on one day. Whatever is missing is null.
 *
 * @param sequence the number of the newest entry about it
 * @param values by column, as written
 */
public record CellNow(
        String tray,
        int day,
        int frame,
        long sequence,
        Map<String, String> values,
        String sown,
        String note,
        String by,
        String time) {

    static CellNow of(Standing standing, ReadingCells meaning) {
        var values = new LinkedHashMap<String, String>();
        standing.cells().forEach((column, text) -> {
            if (meaning.isFigure(column) && !column.equals("sown")) {
                values.put(column, text);
            }
        });
        var slot = standing.slot();
        return new CellNow(
                slot.tray(),
                slot.day(),
                slot.frame(),
                standing.sequence(),
                values,
                text(standing, "sown"),
                text(standing, "note"),
                text(standing, "by"),
                text(standing, "time"));
    }

    private static String text(Standing standing, String column) {
        return Optional.of(standing.text(column)).filter(t -> !t.isEmpty()).orElse(null);
    }
}
