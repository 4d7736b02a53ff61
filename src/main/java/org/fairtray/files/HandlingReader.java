package org.fairtray.files;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.files.PlanValue.Range;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Rotation;

/** Reads what is done with trays beside counting: how much is sown, and how they change places. */
final class HandlingReader {
    static final List<String> SOWING_KEYS = List.of("grams_per_tray");
    static final List<String> ROTATION_KEYS = List.of("level", "days");

    private HandlingReader() {}

    static OptionalDouble grams(PlanValue value) {
        return value.keys(SOWING_KEYS)
                .flatMap(keys -> keys.required("grams_per_tray"))
                .map(v -> v.number(Range.POSITIVE))
                .orElse(OptionalDouble.empty());
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
