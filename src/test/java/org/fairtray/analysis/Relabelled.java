package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.fairtray.Trials;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;

/** The long way round: every other layout written down, taken apart and analysed from the beginning. */
record Relabelled(Trials trials, String factor) {

    /** Every way to give a factor's levels to units, each level as often in every group as it is now. */
    List<Map<String, String>> within(Function<Tray, String> unit, Function<Tray, String> group) {
        var units = new LinkedHashMap<String, Tray>();
        trials.layout().trays().forEach(t -> units.putIfAbsent(unit.apply(t), t));
        Map<String, Integer> left = new HashMap<>();
        units.values().forEach(t -> left.merge(group.apply(t) + ":" + level(t), 1, Integer::sum));
        var found = new ArrayList<Map<String, String>>();
        extend(List.copyOf(units.keySet()), u -> group.apply(units.get(u)), left, Map.of(), found);
        return found;
    }

    private void extend(
            List<String> units,
            Function<String, String> group,
            Map<String, Integer> left,
            Map<String, String> given,
            List<Map<String, String>> found) {
        if (given.size() == units.size()) {
            found.add(given);
            return;
        }
        String unit = units.get(given.size());
        for (String level : trials.trial().factor(factor).levels()) {
            String key = group.apply(unit) + ":" + level;
            if (left.getOrDefault(key, 0) > 0) {
                left.merge(key, -1, Integer::sum);
                var more = new HashMap<>(given);
                more.put(unit, level);
                extend(units, group, left, more, found);
                left.merge(key, 1, Integer::sum);
            }
        }
    }

    private String level(Tray tray) {
        return tray.treatment().level(factor);
    }

    /** F of the factor when its levels are given to the units like this. */
    double ratio(Map<String, String> given, Function<Tray, String> unit, double[] values) {
        var trays = trials.layout().trays().stream()
                .map(t -> new Tray(
                        t.code(),
                        t.stand(),
                        t.batches(),
                        t.treatment().with(new Treatment(Map.of(factor, given.get(unit.apply(t)))))))
                .toList();
        return ratio(Structure.of(trials.trial(), new Layout(trays).trays()), values);
    }

    private double ratio(Structure structure, double[] values) {
        var term = new Term(List.of(factor));
        int stratum = structure.testedIn(term).orElseThrow();
        return AnovaPart.of(structure, values).ratio(term, stratum).orElseThrow();
    }

    /** The share of these with an F as large as that of the actual layout. */
    double share(List<Map<String, String>> all, Function<Tray, String> unit, double[] values) {
        double observed = ratio(Structure.of(trials.trial(), trials.layout().trays()), values);
        long reached = all.stream()
                .filter(a -> ratio(a, unit, values) >= observed * (1 - 1e-9))
                .count();
        return (double) reached / all.size();
    }

    /** Every arrangement of numbers from 0 to n - 1. */
    static List<int[]> orders(int n) {
        if (n == 0) {
            return List.of(new int[0]);
        }
        var orders = new ArrayList<int[]>();
        for (int[] shorter : orders(n - 1)) {
            for (int at = 0; at < n; at++) {
                int place = at;
                orders.add(IntStream.range(0, n)
                        .map(i -> i < place ? shorter[i] : i == place ? n - 1 : shorter[i - 1])
                        .toArray());
            }
        }
        return orders;
    }
}
