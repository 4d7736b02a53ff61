package org.fairtray.journal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * What follows from the entries of a journal, which are given to it in order: the same entries, the same ledger.
 *
 * <p>A count is a change of what its counter had in view. Column by column: where nobody changed the figure since, the
 * change is taken; where someone else did, to another figure, the two are in conflict and the earlier one stands.
 */
public final class Ledger {
    /** Columns that say who counted when; they follow the figures and are never in conflict. */
    static final Set<String> ASIDE = Set.of("by", "time");

    private final Map<Slot, List<Standing>> history = new TreeMap<>(Slot.ORDER);
    private final Map<Slot, List<Conflict>> conflicts = new HashMap<>();
    private final Set<String> ids = new HashSet<>();
    private final List<Event.Photographed> photos = new ArrayList<>();
    private Optional<Event.Sown> sown = Optional.empty();
    private Optional<Entry> opened = Optional.empty();
    private Optional<Instant> newest = Optional.empty();
    private int countedAfterOpening;
    private String layoutSha256 = "";

    /** Takes the next entry into account. */
    public void add(Entry entry) {
        var event = entry.event();
        if (event instanceof Event.Counted counted) {
            add(entry, counted);
        } else if (event instanceof Event.Began began) {
            layoutSha256 = began.layoutSha256();
        } else if (event instanceof Event.Sown day) {
            sown = Optional.of(day);
        } else if (event instanceof Event.Opened) {
            opened = opened.or(() -> Optional.of(entry));
        } else if (event instanceof Event.Photographed photo) {
            ids.add(photo.id());
            photos.add(photo);
        }
    }

    private void add(Entry entry, Event.Counted counted) {
        ids.add(counted.id());
        newest = Optional.of(entry.time());
        countedAfterOpening += opened.isPresent() ? 1 : 0;
        var slot = counted.slot();
        var versions = history.computeIfAbsent(slot, s -> new ArrayList<>());
        var columns = new LinkedHashMap<>(standing(slot).columns());
        var merged = merge(counted);
        merged.settled().forEach(column -> settle(counted, column));
        merged.taken().forEach((column, value) -> columns.put(column, held(entry, counted, value)));
        merged.differing()
                .forEach((column, value) -> conflicts
                        .computeIfAbsent(slot, s -> new ArrayList<>())
                        .add(new Conflict(entry.number(), slot, column, held(entry, counted, value))));
        versions.add(new Standing(slot, entry.number(), columns));
    }

    private static Held held(Entry entry, Event.Counted counted, String value) {
        return new Held(value, entry.number(), counted.by(), entry.time());
    }

    /**
     * What would become of a count if it came now.
     *
     * @param taken figures that change, by column
     * @param differing figures that differ from others their counter hadn't seen
     * @param settled columns in which the count may decide between figures
     */
    public record Merged(Map<String, String> taken, Map<String, String> differing, Set<String> settled) {}

    /** What would become of a count if it came now. */
    public Merged merge(Event.Counted counted) {
        var now = standing(counted.slot());
        var before = asOf(counted.slot(), counted.seen());
        var taken = new LinkedHashMap<String, String>();
        var differing = new LinkedHashMap<String, String>();
        var settled = new HashSet<String>();
        counted.cells().forEach((column, value) -> {
            boolean unchangedSince = before.text(column).equals(now.text(column));
            if (ASIDE.contains(column)) {
                return;
            }
            if (unchangedSince) {
                settled.add(column);
            }
            if (!value.equals(now.text(column))) {
                if (unchangedSince) {
                    taken.put(column, value);
                } else if (!value.equals(before.text(column))) {
                    differing.put(column, value);
                }
            }
        });
        if (!taken.isEmpty()) {
            ASIDE.stream()
                    .filter(counted.cells()::containsKey)
                    .forEach(column -> taken.put(column, counted.cells().get(column)));
        }
        return new Merged(taken, differing, settled);
    }

    /** A count that decides between figures it has seen: they are no longer in conflict. */
    private void settle(Event.Counted counted, String column) {
        var open = conflicts.get(counted.slot());
        if (counted.settles() && open != null) {
            open.removeIf(c -> c.column().equals(column) && c.number() <= counted.seen());
        }
    }

    /** What stood for a slot when an entry was the newest. */
    Standing asOf(Slot slot, long number) {
        var versions = history.getOrDefault(slot, List.of());
        for (int i = versions.size() - 1; i >= 0; i--) {
            if (versions.get(i).sequence() <= number) {
                return versions.get(i);
            }
        }
        return Standing.empty(slot);
    }

    /** What stands for a slot. */
    public Standing standing(Slot slot) {
        return asOf(slot, Long.MAX_VALUE);
    }

    /** What stands, for every slot that was ever counted, by day and tray. */
    public List<Standing> standings() {
        return history.values().stream().map(v -> v.get(v.size() - 1)).toList();
    }

    /** All that ever stood for each slot, oldest first. */
    Collection<List<Standing>> histories() {
        return history.values();
    }

    /** Where people differ and nobody has settled it, oldest first. */
    public List<Conflict> conflicts() {
        return conflicts.keySet().stream()
                .flatMap(slot -> conflicts(slot).stream())
                .sorted(Comparator.comparingLong(Conflict::number))
                .toList();
    }

    /** The counts in conflict of one slot. */
    public List<Conflict> conflicts(Slot slot) {
        var now = standing(slot);
        return conflicts.getOrDefault(slot, List.of()).stream()
                .filter(c -> !c.offered().value().equals(now.text(c.column())))
                .toList();
    }

    /** Whether a count or photo of this id is kept already. */
    public boolean knows(String id) {
        return ids.contains(id);
    }

    /** The photos, oldest first. */
    public List<Event.Photographed> photos() {
        return List.copyOf(photos);
    }

    /** When the trays were sown, as was said last. */
    public Optional<Event.Sown> sown() {
        return sown;
    }

    /** The entry that opened the seal. */
    public Optional<Entry> opened() {
        return opened;
    }

    /** When the newest count was written, by the clock of the bench at that time. */
    public Optional<Instant> newest() {
        return newest;
    }

    /** How many counts came after the seal was opened. */
    public int countedAfterOpening() {
        return countedAfterOpening;
    }

    /** SHA-256 of the layout that the journal was begun for; empty before it was. */
    public String layoutSha256() {
        return layoutSha256;
    }
}
