package org.fairtray.design;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * One step of a randomisation: the factors applied to one level, given to its units.
 *
 * @param level the level whose units are given something
 * @param factors what they are given levels of
 * @param within the levels just outside, in each of whose units every combination comes equally often: none, one, or two
 *     that are crossed
 * @param units how many units lie in one group, that is in one unit of the level (or of all that both crossed levels
 *     share)
 * @param rows with two crossed levels, how many units of the first a group has; else 1
 * @param columns with two crossed levels, how many of the second; else 1
 * @param sets how many full sets of the combinations each group gets; with crossed levels, all that it holds;
 *     0 where full sets don't fit and the layout is searched for
 */
public record Step(
        String level, List<Factor> factors, List<String> within, int units, int rows, int columns, int sets) {

    /** The step of a level, with as many full sets as its groups hold of all combinations. */
    static Step of(Trial trial, String level) {
        var place = trial.place();
        var factors = trial.factors().stream()
                .filter(f -> trial.appliedLevel(f).equals(level))
                .toList();
        var outside = place.names().stream()
                .filter(l -> place.contains(l, level) && !trial.moves(l))
                .filter(l -> place.units(l) > 1)
                .toList();
        var within = outside.stream()
                .filter(l -> outside.stream().noneMatch(inner -> place.contains(l, inner)))
                .toList();
        int units = place.units(level) / count(place, shared(place, within));
        int rows = within.size() < 2 ? 1 : place.units(within.get(0)) / count(place, shared(place, within));
        int columns = within.size() < 2 ? 1 : place.units(within.get(1)) / count(place, shared(place, within));
        return new Step(level, factors, within, units, rows, columns, 0);
    }

    Step withSets(int number) {
        return new Step(level, factors, within, units, rows, columns, number);
    }

    /** Whether full sets don't fit, so that its layout is searched for. */
    public boolean searched() {
        return sets == 0;
    }

    /** Whether its groups are crossed by two levels. */
    boolean crossed() {
        return within.size() == 2;
    }

    /** The names of its factors, as one. */
    String what() {
        return factors.stream().map(Factor::name).collect(Collectors.joining(" × "));
    }

    /** What holds one of its groups, at the beginning of a sentence. */
    String holder() {
        return within.isEmpty() ? "The place" : "Each " + within.get(0);
    }

    /** How many units lie in both a row and a column. */
    int perCell() {
        return units / (rows * columns);
    }

    /** The combinations that a unit may get, given what the units around it got. */
    List<Treatment> treatments(Trial trial, Treatment outer) {
        return trial.treatments(factors).stream()
                .filter(t -> trial.made(outer.with(t)))
                .toList();
    }

    /** The units, group by group; with crossed levels row by row, column by column. */
    List<List<List<Integer>>> groups(Place place) {
        var key = place.key(level);
        var shared = shared(place, within);
        Map<List<Integer>, List<List<Integer>>> groups = new LinkedHashMap<>();
        for (var unit : Units.all(place, key)) {
            groups.computeIfAbsent(Units.part(key, shared, unit), g -> new ArrayList<>())
                    .add(unit);
        }
        if (crossed()) {
            var rowKey = place.key(within.get(0));
            var columnKey = place.key(within.get(1));
            Comparator<List<Integer>> byRow = Comparator.comparing(u -> Units.part(key, rowKey, u), Stand.WALK);
            var byCell = byRow.thenComparing(u -> Units.part(key, columnKey, u), Stand.WALK);
            groups.values().forEach(g -> g.sort(byCell));
        }
        return List.copyOf(groups.values());
    }

    /** A combination, or nothing, for each unit of a group in its order. */
    List<Optional<Treatment>> draw(List<Treatment> treatments, UniformRandomProvider random) {
        return crossed() ? drawCrossed(treatments, random) : drawSets(treatments, random);
    }

    private List<Optional<Treatment>> drawSets(List<Treatment> treatments, UniformRandomProvider random) {
        var order = new ArrayList<Optional<Treatment>>();
        int full = Math.min(sets, units / treatments.size());
        treatments.forEach(t -> order.addAll(Collections.nCopies(full, Optional.of(t))));
        order.addAll(Collections.nCopies(units - order.size(), Optional.empty()));
        Generator.shuffle(order, random);
        return order;
    }

    private List<Optional<Treatment>> drawCrossed(List<Treatment> treatments, UniformRandomProvider random) {
        var order = new ArrayList<Optional<Treatment>>();
        for (int[][] row : Rectangle.draw(rows, columns, perCell(), treatments.size(), random)) {
            for (int[] cell : row) {
                for (int treatment : cell) {
                    order.add(Optional.of(treatments.get(treatment)));
                }
            }
        }
        return order;
    }

    /** The coordinates that all of some levels share; none for none. */
    private static List<Integer> shared(Place place, List<String> levels) {
        if (levels.isEmpty()) {
            return List.of();
        }
        var shared = new ArrayList<>(place.key(levels.get(0)));
        levels.forEach(l -> shared.retainAll(place.key(l)));
        return shared;
    }

    private static int count(Place place, List<Integer> key) {
        return key.stream().mapToInt(i -> place.levels().get(i).count()).reduce(1, Math::multiplyExact);
    }
}
