package org.fairtray.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.fairtray.Trials;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** The layouts that the analysis is tried on. */
final class Layouts {
    private Layouts() {}

    /**
     * A layout to try.
     *
     * @param name what a textbook calls it
     * @param trial the plan
     * @param layout drawn once, from a fixed seed
     * @param seeds sown in a tray
     * @param controlRate the rate of the control
     */
    record Tried(String name, Trial trial, Layout layout, int seeds, double controlRate) {}

    static List<Tried> all() {
        var soak = Trials.factor("soak", "tray", "0", "8");
        var mat = Trials.factor("mat", "tray", "hemp", "coir", "pad");
        var cover = Trials.factor("cover", "stack", "0", "3");
        var three = Trials.factor("cover", "stack", "0", "3", "6");
        var four = Trials.factor("mat", "tray", "hemp", "coir", "pad", "jute");
        var five = Trials.factor("mat", "tray", "hemp", "coir", "pad", "jute", "felt");
        var layouts = new ArrayList<Tried>();
        layouts.add(drawn("completely randomised, 3 levels × 6 trays", Trials.place("spot 18"), mat));
        layouts.add(drawn("completely randomised, 2 × 3 factorial, 4 trays each", Trials.place("spot 24"), soak, mat));
        layouts.add(drawn("5 blocks of 4", Trials.place("block 5", "spot 4"), four));
        layouts.add(drawn("4 blocks of a 2 × 3 factorial", Trials.place("block 4", "spot 6"), soak, mat));
        layouts.add(given(
                "split plot, 3 stacks of 4 (cover on 2 and 1)",
                Trials.place("stack 3", "layer 4"),
                List.of(cover, soak),
                at -> Map.of("cover", at.get(0) == 2 ? "3" : "0", "soak", at.get(1) % 2 == 0 ? "8" : "0")));
        layouts.add(drawn("split plot, 6 stacks of 4", Trials.place("stack 6", "layer 4"), cover, soak));
        layouts.add(drawn(
                "split plot, 2 shelves of 3 stacks of 4", Trials.place("shelf 2", "stack 3", "layer 4"), three, soak));
        layouts.add(drawn("4 × 4 Latin square", Trials.place("row 4", "column 4 across row"), four));
        layouts.add(given(
                "balanced incomplete blocks, 5 levels in 10 blocks of 3",
                Trials.place("block 10", "spot 3"),
                List.of(five),
                at -> Map.of("mat", five.levels().get(TRIPLES[at.get(0) - 1][at.get(1) - 1]))));
        var split = layouts.get(5);
        layouts.add(without("split plot, 6 stacks of 4, 4 trays lost", split, 2, 7, 8, 17));
        layouts.add(without("5 blocks of 4, 3 trays lost", layouts.get(2), 1, 6, 14));
        layouts.add(rare("rare: 5 blocks of 4, control rate 3 %, 50 seeds", layouts.get(2)));
        layouts.add(rare("rare: split plot, 6 stacks of 4, control rate 3 %, 50 seeds", split));
        return layouts;
    }

    /** Every three of five levels once. */
    private static final int[][] TRIPLES = {
        {0, 1, 2}, {0, 1, 3}, {0, 1, 4}, {0, 2, 3}, {0, 2, 4}, {0, 3, 4}, {1, 2, 3}, {1, 2, 4}, {1, 3, 4}, {2, 3, 4}
    };

    private static Tried drawn(String name, Place place, Factor... factors) {
        var trial = Trials.of(place, List.of(factors), Trials.THROUGH).trial();
        return new Tried(name, trial, Randomisation.of(trial).draw(Generator.of(1)), 100, 0.35);
    }

    private static Tried given(
            String name, Place place, List<Factor> factors, Function<List<Integer>, Map<String, String>> treatment) {
        var trial = Trials.of(place, factors, Trials.THROUGH).trial();
        var trays = new ArrayList<Tray>();
        for (Stand stand : place.stands()) {
            trays.add(new Tray("T" + (trays.size() + 1), stand, Map.of(), new Treatment(treatment.apply(stand.at()))));
        }
        return new Tried(name, trial, new Layout(trays), 100, 0.35);
    }

    private static Tried without(String name, Tried whole, Integer... lost) {
        var left = new ArrayList<>(whole.layout().trays());
        List.of(lost).forEach(i -> left.set(i, null));
        left.removeIf(t -> t == null);
        return new Tried(name, whole.trial(), new Layout(left), whole.seeds(), whole.controlRate());
    }

    private static Tried rare(String name, Tried usual) {
        return new Tried(name, usual.trial(), usual.layout(), 50, 0.03);
    }
}
