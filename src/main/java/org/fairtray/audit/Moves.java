package org.fairtray.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** Small changes of a layout: two units exchange what they get, or one tray gets another level. */
interface Moves {
    /** More are not tried from one layout. */
    int MOST = 2000;

    /**
     * One change.
     *
     * @param words such as "swap T07 and T15"
     * @param after the trays as they are then
     */
    record Move(String words, List<Tray> after) {}

    /** The changes that can be made to some trays. */
    List<Move> of(List<Tray> trays);

    /**
     * Two units exchange their levels of some factors.
     *
     * @param factors all applied to one level
     * @param all whether these are all factors of that level, so that the units themselves change places
     */
    static Moves swaps(Trial trial, Set<String> factors, boolean all) {
        String level = trial.appliedLevel(trial.factor(factors.iterator().next()));
        return trays -> {
            var units = units(trial, trays, level);
            var names = new ArrayList<>(units.keySet());
            long pairs = (long) names.size() * (names.size() - 1) / 2;
            long every = Math.max(1, (pairs + MOST - 1) / MOST);
            var moves = new ArrayList<Move>();
            long pair = 0;
            for (int i = 0; i < names.size(); i++) {
                for (int j = i + 1; j < names.size(); j++) {
                    if (pair++ % every == 0) {
                        var after = exchanged(trays, units.get(names.get(i)), units.get(names.get(j)), factors);
                        if (!after.equals(trays) && after.stream().allMatch(t -> trial.made(t.treatment()))) {
                            moves.add(new Move(words(names.get(i), names.get(j), factors, all), after));
                        }
                    }
                }
            }
            return moves;
        };
    }

    private static String words(String one, String other, Set<String> factors, boolean all) {
        return all
                ? "swap " + one + " and " + other
                : "exchange the " + String.join(" and ", factors) + " of " + one + " and " + other;
    }

    private static Map<String, List<Integer>> units(Trial trial, List<Tray> trays, String level) {
        Map<String, List<Integer>> units = new LinkedHashMap<>();
        for (int t = 0; t < trays.size(); t++) {
            var tray = trays.get(t);
            String name = level.equals(Place.TRAY)
                    ? tray.code()
                    : level + " " + trial.place().unit(level, tray.stand());
            units.computeIfAbsent(name, n -> new ArrayList<>()).add(t);
        }
        return units;
    }

    private static List<Tray> exchanged(List<Tray> trays, List<Integer> one, List<Integer> other, Set<String> factors) {
        var ones = trays.get(one.get(0)).treatment().only(factors);
        var others = trays.get(other.get(0)).treatment().only(factors);
        var after = new ArrayList<>(trays);
        one.forEach(t -> after.set(t, with(trays.get(t), others)));
        other.forEach(t -> after.set(t, with(trays.get(t), ones)));
        return after;
    }

    private static Tray with(Tray tray, Treatment part) {
        return new Tray(
                tray.code(), tray.stand(), tray.batches(), tray.treatment().with(part));
    }

    /** One tray gets another treatment that some tray has already, with the same levels of what isn't given to single trays. */
    static Moves changes(Trial trial) {
        var given = trial.factors().stream()
                .filter(f -> trial.appliedLevel(f).equals(Place.TRAY))
                .map(f -> f.name())
                .collect(Collectors.toCollection(TreeSet::new));
        return trays -> {
            var moves = new ArrayList<Move>();
            var parts = trays.stream()
                    .map(t -> t.treatment().only(given))
                    .distinct()
                    .toList();
            for (int t = 0; t < trays.size() && moves.size() < MOST; t++) {
                for (var part : parts) {
                    var changed = with(trays.get(t), part);
                    if (!changed.equals(trays.get(t)) && trial.made(changed.treatment())) {
                        var after = new ArrayList<>(trays);
                        after.set(t, changed);
                        moves.add(new Move(
                                "give " + changed.code() + " " + part.describe() + " instead of "
                                        + trays.get(t).treatment().only(given).describe(),
                                after));
                    }
                }
            }
            return moves;
        };
    }
}
