package org.fairtray.journal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;

/**
 * What someone changed in a file of readings beside the journal, as counts of their own.
 *
 * <p>The file may have been opened long ago and saved just now, so it is held against every state that the journal ever
 * had; the nearest one, the newest of equals, is what its editor had in view. What differs from that state was edited. A
 * figure that the file still has as it was, though it has been changed here since, may be stale or may have been put back
 * on purpose: it is offered as unseen, which makes it a conflict for a person to settle, never a silent loss.
 */
public final class Edits {
    /** Who gives the figures of an edited file. */
    public static final String BY = "readings.csv";

    private final Ledger ledger;
    private final Map<Slot, Map<String, String>> file;

    private Edits(Ledger ledger, Map<Slot, Map<String, String>> file) {
        this.ledger = ledger;
        this.file = file;
    }

    /**
     * The edits of a file.
     *
     * @param file every cell that isn't empty, by slot and column
     * @param id begins the ids of the counts
     */
    public static List<Event.Counted> of(Ledger ledger, Map<Slot, Map<String, String>> file, String id) {
        return new Edits(ledger, file).counts(id);
    }

    private List<Event.Counted> counts(String id) {
        long seen = nearest();
        var counts = new ArrayList<Event.Counted>();
        var slots = new TreeSet<>(Slot.ORDER);
        slots.addAll(file.keySet());
        ledger.histories().forEach(h -> slots.add(h.get(0).slot()));
        for (var slot : slots) {
            var then = ledger.asOf(slot, seen);
            var edited = edited(slot, then);
            if (!edited.isEmpty()) {
                counts.add(count(id, slot, seen, edited));
            }
            var older = olderFigures(slot, then, ledger.standing(slot));
            if (!older.isEmpty()) {
                counts.add(count(id + " older", slot, 0, older));
            }
        }
        return counts;
    }

    private static Event.Counted count(String id, Slot slot, long seen, Map<String, String> cells) {
        return new Event.Counted(
                id + " " + slot.tray() + " " + slot.day() + " " + slot.frame(),
                slot,
                seen,
                cells,
                cells.getOrDefault("by", BY),
                Optional.empty(),
                OptionalDouble.empty(),
                false);
    }

    /** Cells that the file has otherwise than its editor had in view; who counted when goes with a figure. */
    private Map<String, String> edited(Slot slot, Standing then) {
        var cells = file.getOrDefault(slot, Map.of());
        var edited = new LinkedHashMap<String, String>();
        for (var column : figures(cells, then)) {
            var text = cells.getOrDefault(column, "");
            if (!text.equals(then.text(column))) {
                edited.put(column, text);
            }
        }
        if (!edited.isEmpty()) {
            Ledger.ASIDE.stream().filter(cells::containsKey).forEach(c -> edited.put(c, cells.get(c)));
        }
        return edited;
    }

    /** Cells that the file has as they once were, where another figure has been given since. */
    private Map<String, String> olderFigures(Slot slot, Standing then, Standing now) {
        var cells = file.getOrDefault(slot, Map.of());
        var older = new LinkedHashMap<String, String>();
        for (var column : figures(cells, then)) {
            var text = cells.getOrDefault(column, "");
            boolean same = text.equals(then.text(column));
            if (same && !text.isEmpty() && !text.equals(now.text(column)) && !offeredAlready(now, column, text)) {
                older.put(column, text);
            }
        }
        return older;
    }

    private boolean offeredAlready(Standing now, String column, String text) {
        return ledger.conflicts(now.slot()).stream()
                .anyMatch(c -> c.column().equals(column) && c.offered().value().equals(text));
    }

    private static Collection<String> figures(Map<String, String> cells, Standing then) {
        var columns = new LinkedHashSet<>(cells.keySet());
        columns.addAll(then.columns().keySet());
        columns.removeAll(Ledger.ASIDE);
        return columns;
    }

    /** The number of the newest entry that the file's editor is most likely to have had in view. */
    private long nearest() {
        var versions = new ArrayList<Standing>();
        var at = new HashMap<Slot, Integer>();
        long differences = 0;
        for (var history : ledger.histories()) {
            versions.addAll(history);
            var newest = history.get(history.size() - 1);
            at.put(newest.slot(), history.size() - 1);
            differences += differences(newest);
        }
        for (var slot : file.keySet()) {
            differences += at.containsKey(slot) ? 0 : differences(Standing.empty(slot));
        }
        versions.sort(Comparator.comparingLong(Standing::sequence).reversed());
        long best = differences;
        long nearest = versions.isEmpty() ? 0 : versions.get(0).sequence();
        for (var version : versions) {
            var before = ledger.asOf(version.slot(), version.sequence() - 1);
            differences += differences(before) - differences(version);
            if (differences < best) {
                best = differences;
                nearest = version.sequence() - 1;
            }
        }
        return nearest;
    }

    private long differences(Standing standing) {
        var cells = file.getOrDefault(standing.slot(), Map.of());
        return figures(cells, standing).stream()
                .filter(c -> !cells.getOrDefault(c, "").equals(standing.text(c)))
                .count();
    }
}
