package org.fairtray.design;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.trial.Place;

/** Units of place levels as the coordinates that tell them apart. */
final class Units {
    private Units() {}

    /** The unit in which a stand lies. */
    static List<Integer> of(List<Integer> key, List<Integer> stand) {
        return key.stream().map(stand::get).toList();
    }

    /** The outer unit in which an inner one lies; {@code outer} is part of {@code inner}. */
    static List<Integer> part(List<Integer> inner, List<Integer> outer, List<Integer> unit) {
        return outer.stream().map(i -> unit.get(inner.indexOf(i))).toList();
    }

    /** Every unit that a key tells apart, the last coordinate fastest. */
    static List<List<Integer>> all(Place place, List<Integer> key) {
        List<List<Integer>> units = List.of(List.of());
        for (int coordinate : key) {
            var longer = new ArrayList<List<Integer>>();
            for (var start : units) {
                for (int i = 1; i <= place.levels().get(coordinate).count(); i++) {
                    var unit = new ArrayList<>(start);
                    unit.add(i);
                    longer.add(List.copyOf(unit));
                }
            }
            units = longer;
        }
        return units;
    }
}
