package org.fairtray.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * A random change of names that keeps a layout as good as it is: units of each level within the unit that holds them, and
 * the levels of each factor where all combinations are made. Which units come together in a unit stays the same.
 *
 * <p>Source (from memory): Bailey (2008), Design of Comparative Experiments, sections 8.3 and 11.4 (randomise by the
 * permutations that keep the structure of the place, and name the treatments at random).
 */
final class Renaming {
    private final Place place;
    private final UniformRandomProvider random;
    private final Map<List<Integer>, List<Integer>> orders = new HashMap<>();
    private final Map<String, Map<String, String>> levels = new LinkedHashMap<>();

    Renaming(Trial trial, UniformRandomProvider random) {
        this.place = trial.place();
        this.random = random;
        for (var factor : trial.factors()) {
            var names = new ArrayList<>(factor.levels());
            if (trial.never().isEmpty()) {
                Generator.shuffle(names, random);
            }
            var renamed = new HashMap<String, String>();
            factor.levels().forEach(l -> renamed.put(l, names.get(renamed.size())));
            levels.put(factor.name(), renamed);
        }
    }

    /** Where what stands here goes. */
    Stand of(Stand stand) {
        var at = new ArrayList<Integer>();
        for (int i = 0; i < place.levels().size(); i++) {
            var level = place.levels().get(i);
            var unit = new ArrayList<>(Units.of(place.key(level.name()), stand.at()));
            int own = unit.remove(unit.size() - 1);
            unit.add(i);
            at.add(orders.computeIfAbsent(unit, u -> order(level.count())).get(own - 1));
        }
        return new Stand(at);
    }

    private List<Integer> order(int count) {
        var order = new ArrayList<>(IntStream.rangeClosed(1, count).boxed().toList());
        Generator.shuffle(order, random);
        return order;
    }

    /** What a tray gets instead. */
    Treatment of(Treatment treatment) {
        var renamed = new LinkedHashMap<String, String>();
        treatment.levels().forEach((f, l) -> renamed.put(f, levels.get(f).get(l)));
        return new Treatment(renamed);
    }
}
