package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Restriction.Kind;
import org.fairtray.trial.Rotation;

/** Reads what a layout must keep to besides the structure of the place. */
final class RestrictionReader {
    static final List<String> KEYS = List.of(Kind.APART.key(), Kind.EVEN.key(), Kind.EDGES.key(), "of");

    private final Place place;
    private final List<Factor> factors;
    private final Optional<Rotation> rotation;

    RestrictionReader(Place place, List<Factor> factors, Optional<Rotation> rotation) {
        this.place = place;
        this.factors = factors;
        this.rotation = rotation;
    }

    /** The restrictions that are sound, each once. */
    List<Restriction> read(PlanValue value) {
        var read = new ArrayList<Restriction>();
        for (var item : value.items("restrictions", "a restriction")) {
            restriction(item).ifPresent(r -> {
                if (read.contains(r)) {
                    item.problems()
                            .add(item.line(), "the same restriction twice: " + r.text(), "each restriction once");
                } else {
                    read.add(r);
                }
            });
        }
        return List.copyOf(read);
    }

    private Optional<Restriction> restriction(PlanValue item) {
        return item.keys(KEYS).flatMap(keys -> {
            var kinds = Stream.of(Kind.values())
                    .filter(k -> keys.optional(k.key()).isPresent())
                    .toList();
            if (kinds.size() != 1) {
                if (kinds.size() > 1 || !keys.someMeant()) {
                    item.problems()
                            .add(
                                    item.line(),
                                    kinds.isEmpty()
                                            ? "a restriction that asks for nothing"
                                            : "several restrictions in one item",
                                    "one of " + Wording.list(KEYS.subList(0, 3)) + " in each item");
                }
                return Optional.empty();
            }
            var kind = kinds.get(0);
            var asked = keys.optional(kind.key()).orElseThrow();
            return kind == Kind.EVEN ? even(keys, asked) : plain(keys, kind, asked);
        });
    }

    private Optional<Restriction> even(Keys keys, PlanValue asked) {
        var over = asked.oneOf("place level", place.names());
        var of = keys.required("of").flatMap(this::what);
        if (over.isEmpty() || of.isEmpty()) {
            return Optional.empty();
        }
        String level = over.get();
        var units = place.key(levelOf(of.get()));
        if (!units.contains(place.names().indexOf(level))) {
            return asked.refuse("a place level that differs between the units that get " + of.get()
                    + ", whole units of " + levelOf(of.get()));
        }
        return moves(place.key(level))
                ? asked.refuse("a place level that trays keep: they change places by rotation")
                : Optional.of(new Restriction(Kind.EVEN, of.get(), over));
    }

    private Optional<Restriction> plain(Keys keys, Kind kind, PlanValue asked) {
        keys.optional("of")
                .ifPresent(v -> v.problems()
                        .add(v.keyLine(), "key 'of' beside " + kind.key(), "of beside " + Kind.EVEN.key() + " alone"));
        return what(asked)
                .flatMap(of -> moves(place.key(levelOf(of)))
                        ? asked.refuse("something whose units keep their places: trays change theirs by rotation")
                        : Optional.of(new Restriction(kind, of, Optional.empty())));
    }

    private Optional<String> what(PlanValue value) {
        var known = new ArrayList<>(List.of(Restriction.TREATMENT));
        factors.stream().map(Factor::name).filter(n -> !known.contains(n)).forEach(known::add);
        return value.oneOf("factor", known);
    }

    private String levelOf(String of) {
        return factors.stream()
                .filter(f -> f.name().equals(of))
                .findFirst()
                .map(Factor::appliedTo)
                .orElse(Place.TRAY);
    }

    private boolean moves(List<Integer> key) {
        return rotation.filter(r -> key.contains(place.names().indexOf(r.level())))
                .isPresent();
    }
}
