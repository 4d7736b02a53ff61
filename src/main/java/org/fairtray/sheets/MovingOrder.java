package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;

/** An order in which trays change places where one tray at a time can be set aside. */
final class MovingOrder {
    private final Map<Stand, Stand> targets = new LinkedHashMap<>();
    private final Map<Stand, Stand> comers = new HashMap<>();
    private final Map<Stand, String> codes = new HashMap<>();
    private final List<Step> steps = new ArrayList<>();

    private MovingOrder() {}

    /**
     * One tray is carried from one place to another.
     *
     * @param from empty where it was set aside
     * @param to empty where it is set aside
     */
    record Step(String tray, Optional<Stand> from, Optional<Stand> to) {}

    /**
     * The steps; none for trays that stay.
     *
     * @param before trays where they stand
     * @param after the same trays where they are to stand, each place once
     */
    static List<Step> of(List<Tray> before, List<Tray> after) {
        var order = new MovingOrder();
        var to = new HashMap<String, Stand>();
        after.forEach(t -> to.put(t.code(), t.stand()));
        for (var tray : before) {
            var target = to.get(tray.code());
            if (!target.equals(tray.stand())) {
                order.targets.put(tray.stand(), target);
                order.comers.put(target, tray.stand());
                order.codes.put(tray.stand(), tray.code());
            }
        }
        order.fillEmptyPlaces();
        order.goRound();
        return order.steps;
    }

    private void fillEmptyPlaces() {
        List.copyOf(targets.values()).stream()
                .filter(place -> !codes.containsKey(place))
                .forEach(this::fill);
    }

    /** Carries to a place what belongs there, then to the place that is left what belongs there, and so on. */
    private void fill(Stand place) {
        var free = place;
        while (targets.containsKey(comers.get(free))) {
            var from = comers.get(free);
            targets.remove(from);
            steps.add(new Step(codes.get(from), Optional.of(from), Optional.of(free)));
            free = from;
        }
    }

    private void goRound() {
        while (!targets.isEmpty()) {
            var first = targets.keySet().iterator().next();
            var target = targets.remove(first);
            steps.add(new Step(codes.get(first), Optional.of(first), Optional.empty()));
            fill(first);
            steps.add(new Step(codes.get(first), Optional.empty(), Optional.of(target)));
        }
    }
}
