package org.fairtray.files;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.files.PlanValue.Range;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Rotation;

/** Reads what is done with trays beside counting: how much is sown, how they change places, when covers come off. */
final class HandlingReader {
    static final List<String> SOWING_KEYS = List.of("grams_per_tray");
    static final List<String> ROTATION_KEYS = List.of("level", "days");
    static final List<String> HANDLING_KEYS = List.of("uncover_day");

    private HandlingReader() {}

    static OptionalDouble grams(PlanValue value) {
        return value.keys(SOWING_KEYS)
                .flatMap(keys -> keys.required("grams_per_tray"))
                .map(v -> v.number(Range.POSITIVE))
                .orElse(OptionalDouble.empty());
    }

    /** @param counting empty where it could not be read, which has been reported */
    static OptionalInt uncoverDay(PlanValue value, Optional<Counting> counting) {
        var given = value.keys(HANDLING_KEYS).flatMap(keys -> keys.required("uncover_day"));
        var day = given.map(v -> v.whole(1, CountingReader.LAST_DAY)).orElse(OptionalInt.empty());
        int last = counting.map(c -> c.days().get(c.days().size() - 1)).orElse(CountingReader.LAST_DAY);
        if (day.isPresent() && day.getAsInt() > last) {
            given.get().refuse("a day on which trays are still counted, at most " + last);
            return OptionalInt.empty();
        }
        return day;
    }

    /** @param place empty where it could not be read, which has been reported */
    static Optional<Rotation> rotation(PlanValue value, Optional<Place> place, List<Factor> factors) {
        return value.keys(ROTATION_KEYS).flatMap(keys -> {
            var level = keys.required("level").flatMap(v -> place.flatMap(p -> level(v, p, factors)));
            var days = keys.required("days").map(v -> CountingReader.days(v, 1)).orElse(List.of());
            return level.isPresent() && !days.isEmpty()
                    ? Optional.of(new Rotation(level.get(), days))
                    : Optional.empty();
        });
    }

    /** Words and numbers for what is the same for all trays; what is varied can't be among them. */
    static Map<String, String> conditions(PlanValue value, List<Factor> factors) {
        var read = new LinkedHashMap<String, String>();
        value.keys()
                .ifPresent(keys -> keys.all().forEach((name, given) -> {
                    if (factors.stream().anyMatch(f -> f.name().equals(name))) {
                        given.refuse("something that is the same for all trays; " + name + " is a factor");
                    } else if (Sheet.trim(name).isEmpty()) {
                        given.refuse("a name before the colon");
                    } else {
                        given.name().ifPresent(word -> read.put(name, word));
                    }
                }));
        return read;
    }

    private static Optional<String> level(PlanValue value, Place place, List<Factor> factors) {
        return value.oneOf("place level", place.names()).flatMap(level -> {
            int own = place.names().indexOf(level);
            if (place.levels().get(own).count() < 2) {
                return value.refuse("a level with two places or more, which trays can exchange");
            }
            var fixed = factors.stream()
                    .filter(f -> !place.isTray(f.appliedTo())
                            && place.key(f.appliedTo()).contains(own))
                    .findFirst();
            return fixed.isEmpty()
                    ? Optional.of(level)
                    : value.refuse("a level whose places can be exchanged: "
                            + fixed.get().name() + " is applied to whole units of "
                            + fixed.get().appliedTo());
        });
    }
}
