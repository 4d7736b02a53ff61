package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.fairtray.trial.Place;

/** Reads where trays can stand. */
final class PlaceReader {
    static final List<String> KEYS = List.of("name", "count", "across");
    private static final int MOST_TRAYS = 1_000_000;

    private final TakenNames taken;
    private final List<String> names = new ArrayList<>();

    PlaceReader(TakenNames taken) {
        this.taken = taken;
    }

    /** The place, or empty if anything is wrong with it. */
    Optional<Place> read(PlanValue value) {
        var items = value.items("place levels, outermost first", "a place level");
        var levels = new ArrayList<Place.Level>();
        for (var item : items) {
            level(item).ifPresent(levels::add);
        }
        if (items.isEmpty() || levels.size() < items.size()) {
            return Optional.empty();
        }
        long trays = 1;
        for (var level : levels) {
            trays = Math.min(trays * level.count(), MOST_TRAYS + 1L);
        }
        if (trays > MOST_TRAYS) {
            value.problems().add(value.line(), "a place for more than " + MOST_TRAYS + " trays", "fewer");
            return Optional.empty();
        }
        return Optional.of(new Place(levels));
    }

    /** The names of the levels, as far as they could be read. */
    List<String> names() {
        return List.copyOf(names);
    }

    private Optional<Place.Level> level(PlanValue item) {
        return item.keys(KEYS).flatMap(keys -> {
            var name = keys.required("name").flatMap(v -> taken.take(v, "a place level"));
            var count = keys.required("count").map(v -> v.whole(1, MOST_TRAYS)).orElse(OptionalInt.empty());
            var across = keys.optional("across");
            var crossed = across.flatMap(this::earlier);
            name.ifPresent(names::add);
            boolean sound = name.isPresent() && count.isPresent() && across.isPresent() == crossed.isPresent();
            return sound ? Optional.of(new Place.Level(name.get(), count.getAsInt(), crossed)) : Optional.empty();
        });
    }

    private Optional<String> earlier(PlanValue value) {
        return names.isEmpty()
                ? value.refuse("a place level before this one; there is none")
                : value.oneOf("place level", names);
    }
}
