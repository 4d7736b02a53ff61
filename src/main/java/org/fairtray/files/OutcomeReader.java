package org.fairtray.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.fairtray.trial.Outcome;

/** Reads what is read off a tray, and what growers say that it means. */
final class OutcomeReader {
    static final List<String> KEYS = List.of("name", "kind", "of", "day");
    private static final String COUNT = "count";
    private static final List<String> KINDS = List.of(COUNT, "measure");
    /** Columns of counts that every trial has the name for. */
    private static final List<String> STAGES = List.of(ReadingColumns.GERMINATED, ReadingColumns.THROUGH);

    private final Map<String, Integer> names = new LinkedHashMap<>();
    private final List<PlanValue> days = new ArrayList<>();
    private boolean counts;

    /** The outcomes that are sound, the question's own first. */
    List<Outcome> read(PlanValue value) {
        return value.each("outcomes", "an outcome", this::outcome);
    }

    /** Whether any outcome is a count, so that the seeds of a frame matter. */
    boolean counts() {
        return counts;
    }

    /** The names of the outcomes, as far as they could be read. */
    Collection<String> names() {
        return names.keySet();
    }

    /** Reports every outcome whose day isn't one that trays are counted on. */
    void checkDays(List<Integer> counted) {
        var known = counted.stream().map(String::valueOf).toList();
        for (var day : days) {
            var number = day.whole(0, Integer.MAX_VALUE);
            if (number.isPresent() && !counted.contains(number.getAsInt())) {
                day.refuse("a day of counting: " + Wording.oneOf(known));
            }
        }
    }

    private Optional<Outcome> outcome(PlanValue item) {
        return item.keys(KEYS).flatMap(keys -> {
            var kind = keys.required("kind").flatMap(v -> v.oneOf("kind", KINDS));
            boolean count = kind.isPresent() && kind.get().equals(COUNT);
            counts |= count;
            var name = keys.required("name").flatMap(v -> name(v, kind));
            var day = keys.required("day").map(this::day).orElse(OptionalInt.empty());
            var of = of(keys.optional("of"), kind, name);
            return name.isPresent() && kind.isPresent() && day.isPresent() && of.isPresent()
                    ? Optional.of(outcome(name.get(), count, of.get(), day.getAsInt()))
                    : Optional.empty();
        });
    }

    private static Outcome outcome(String name, boolean count, String of, int day) {
        return count ? new Outcome.Count(name, of, day) : new Outcome.Measure(name, day);
    }

    private Optional<String> name(PlanValue value, Optional<String> kind) {
        return value.name().flatMap(name -> {
            if (TakenNames.RESERVED.contains(name) && !STAGES.contains(name)) {
                return value.refuse("a name other than "
                        + Wording.list(TakenNames.RESERVED.stream()
                                .filter(n -> !STAGES.contains(n))
                                .toList())
                        + ", which are columns");
            }
            if (STAGES.contains(name) && kind.isPresent() && !kind.get().equals(COUNT)) {
                return value.refuse("a name other than germinated or through, which are counts");
            }
            var before = names.putIfAbsent(name, value.line());
            return before == null
                    ? Optional.of(name)
                    : value.refuse("a name of its own for each outcome; line " + before + " has this one");
        });
    }

    private OptionalInt day(PlanValue value) {
        var day = value.whole(0, Integer.MAX_VALUE);
        day.ifPresent(d -> days.add(value));
        return day;
    }

    private static Optional<String> of(Optional<PlanValue> value, Optional<String> kind, Optional<String> name) {
        if (value.isEmpty()) {
            return Optional.of(ReadingColumns.SOWN);
        }
        if (kind.isPresent() && !kind.get().equals(COUNT)) {
            return value.get().refuse("no key of: only a count is so many of so many");
        }
        boolean first = name.isPresent() && name.get().equals(ReadingColumns.GERMINATED);
        var wholes = first ? List.of(ReadingColumns.SOWN) : List.of(ReadingColumns.SOWN, ReadingColumns.GERMINATED);
        return value.get().oneOf("count", wholes);
    }

    /** What counts as germinated, through or an outcome, in the grower's words. */
    static Map<String, String> definitions(PlanValue value, Collection<String> outcomes) {
        var known = Stream.concat(outcomes.stream(), STAGES.stream()).distinct().toList();
        var definitions = new LinkedHashMap<String, String>();
        value.keys(known)
                .ifPresent(keys -> keys.all()
                        .forEach((name, words) -> words.text()
                                .filter(text -> known.contains(name))
                                .ifPresent(text -> definitions.put(name, text))));
        return definitions;
    }
}
