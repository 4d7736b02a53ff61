package org.fairtray.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.fairtray.trial.Trial;

/**
 * Units that may exchange what they get: the two of a pair that is drawn lie in one group.
 *
 * @param factors of which they exchange the levels
 * @param inner those and all that is given to what lies in the units, which goes along where one unit is empty
 * @param units the stands of each unit
 * @param groups the units of each group, by number
 */
record Layer(int[] factors, int[] inner, int[][] units, int[][] groups) {

    /**
     * How a plan's layouts come out of one another: one layer for each step. Rows that cross columns exchange within rows;
     * the bench is told what columns and cells ask.
     */
    static List<Layer> of(Trial trial, List<Step> steps, Bench bench) {
        return steps.stream().map(s -> of(trial, steps, s, bench)).toList();
    }

    private static Layer of(Trial trial, List<Step> steps, Step step, Bench bench) {
        var place = trial.place();
        int[] factors = numbers(trial, step);
        int[] inner = steps.stream()
                .filter(s -> s.equals(step) || place.contains(step.level(), s.level()))
                .flatMapToInt(s -> IntStream.of(numbers(trial, s)))
                .toArray();
        var stands = standsByUnit(trial, step.level(), bench);
        var units = new ArrayList<int[]>();
        var groups = new ArrayList<int[]>();
        for (var group : step.groups(place)) {
            int first = units.size();
            group.forEach(u -> units.add(stands.get(u)));
            int row = step.crossed() ? step.columns() * step.perCell() : group.size();
            for (int from = first; from < units.size(); from += row) {
                groups.add(IntStream.range(from, from + row).toArray());
            }
        }
        var layer = new Layer(factors, inner, units.toArray(int[][]::new), groups.toArray(int[][]::new));
        if (step.crossed()) {
            layer.cross(step, bench);
        }
        return layer;
    }

    private static int[] numbers(Trial trial, Step step) {
        return step.factors().stream().mapToInt(trial.factors()::indexOf).toArray();
    }

    static Map<List<Integer>, int[]> standsByUnit(Trial trial, String level, Bench bench) {
        var key = trial.place().key(level);
        Map<List<Integer>, List<Integer>> stands = new LinkedHashMap<>();
        for (int s = 0; s < bench.stands().size(); s++) {
            stands.computeIfAbsent(Units.of(key, bench.stands().get(s).at()), u -> new ArrayList<>())
                    .add(s);
        }
        var arrays = new HashMap<List<Integer>, int[]>();
        stands.forEach(
                (u, s) -> arrays.put(u, s.stream().mapToInt(Integer::intValue).toArray()));
        return arrays;
    }

    /** Tells the bench that columns hold each combination equally often and cells none twice. */
    void cross(Step step, Bench bench) {
        int[] group = new int[bench.stands().size()];
        Arrays.fill(group, Restraint.NOTHING);
        int[] column = new int[group.length];
        var beside = new int[group.length][0];
        for (int u = 0; u < units.length; u++) {
            int stand = units[u][0];
            int cell = u / step.perCell();
            group[stand] = u / step.units();
            column[stand] = cell % step.columns();
            beside[stand] = IntStream.range(cell * step.perCell(), (cell + 1) * step.perCell())
                    .map(other -> units[other][0])
                    .filter(other -> other != stand)
                    .toArray();
        }
        bench.limit(EvenNumbers.ofEachLabel(group, column, bench.labels(factors), bench.most(factors)), factors);
        bench.limit(new Apart(beside), factors);
    }

    /** The exchanges of places that keep the structure: whole units of each level within what holds them. */
    static List<Layer> ofPlace(Trial trial, Bench bench) {
        return ofPlace(
                trial, bench, trial.place().names().stream().map(l -> true).toList(), s -> true);
    }

    /**
     * The same among units in which some tray stands.
     *
     * @param moves by place level, whether its units change places
     */
    static List<Layer> ofPlace(Trial trial, Bench bench, List<Boolean> moves) {
        return ofPlace(trial, bench, moves, bench::holdsTray);
    }

    private static List<Layer> ofPlace(Trial trial, Bench bench, List<Boolean> moves, IntPredicate used) {
        var place = trial.place();
        int[] all = IntStream.range(0, trial.factors().size()).toArray();
        var layers = new ArrayList<Layer>();
        for (var level : place.names()) {
            if (!moves.get(place.names().indexOf(level))) {
                continue;
            }
            var units = new ArrayList<int[]>();
            Map<List<Integer>, List<Integer>> groups = new LinkedHashMap<>();
            var stands = standsByUnit(trial, level, bench);
            for (var unit : Units.all(place, place.key(level))) {
                if (IntStream.of(stands.get(unit)).anyMatch(used)) {
                    groups.computeIfAbsent(unit.subList(0, unit.size() - 1), g -> new ArrayList<>())
                            .add(units.size());
                }
                units.add(stands.get(unit));
            }
            layers.add(new Layer(
                    all,
                    all,
                    units.toArray(int[][]::new),
                    groups.values().stream()
                            .map(g -> g.stream().mapToInt(Integer::intValue).toArray())
                            .toArray(int[][]::new)));
        }
        return layers;
    }
}
