package org.fairtray;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.function.Predicate;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.findings.Findings;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Small trials made up in a few lines: a plan, who stands where, what was read. Every step gives a new one.
 *
 * @param trial the plan; a difference of 0.15 is worthwhile
 * @param layout the trays
 * @param readings what was read
 */
public record Trials(Trial trial, Layout layout, List<Reading> readings) {
    /** Seeds in a frame. */
    public static final int SEEDS = 50;

    /** Roots through of the seeds sown, on day 3. */
    public static final Outcome THROUGH = new Outcome.Count("through", "sown", 3);

    /** Roots through of the seeds germinated, on day 3. */
    public static final Outcome THROUGH_OF_GERMINATED = new Outcome.Count("through", "germinated", 3);

    /** Height on day 3. */
    public static final Outcome HEIGHT = new Outcome.Measure("height_mm", 3);

    public Trials {
        readings = List.copyOf(readings);
    }

    /** A place such as {@code place("shelf 2", "stack 3", "position 4 across stack")}. */
    public static Place place(String... levels) {
        return new Place(Arrays.stream(levels)
                .map(level -> {
                    var words = List.of(level.split(" ", -1));
                    Optional<String> across = words.size() == 4 ? Optional.of(words.get(3)) : Optional.empty();
                    return new Place.Level(words.get(0), Integer.parseInt(words.get(1)), across);
                })
                .toList());
    }

    /** A factor without a unit. */
    public static Factor factor(String name, String appliedTo, String... levels) {
        return new Factor(name, Optional.empty(), List.of(levels), appliedTo);
    }

    /** A reading in which every measure of a trial has a number that rises with what germinated. */
    public static Reading withMeasures(Trial trial, Reading reading) {
        var values = new LinkedHashMap<>(reading.values());
        trial.outcomes()
                .forEach(o -> values.computeIfAbsent(
                        o.name(), n -> 20 + reading.values().get("germinated") / 10));
        return new Reading(reading.tray(), reading.day(), reading.frame(), reading.sown(), values, reading.notes());
    }

    /** A plan with one frame a tray, read on days 1 to 3, and the usual analysis; nothing is laid out yet. */
    public static Trials of(Place place, List<Factor> factors, Outcome... outcomes) {
        var trial = new Trial(
                "Made up",
                Optional.empty(),
                Optional.empty(),
                factors,
                new Treatment(Map.of()),
                List.of(),
                place,
                Map.of(),
                List.of(),
                OptionalInt.empty(),
                new Counting(List.of(1, 2, 3), 1, SEEDS, true),
                List.of(outcomes),
                AnalysisChoices.USUAL,
                new Expectations(
                        OptionalDouble.empty(),
                        OptionalDouble.of(0.15),
                        OptionalDouble.empty(),
                        Map.of(),
                        OptionalDouble.empty()),
                Optional.empty(),
                OptionalDouble.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                List.of(),
                Map.of());
        return new Trials(trial, new Layout(List.of()), List.of());
    }

    /** Plans of the usual kinds, with a count and a measure: unblocked, blocks, square, split plot, strips, factorial. */
    public static List<Trials> kinds() {
        var soak = factor("soak", "tray", "0", "4", "8");
        var mat = factor("mat", "tray", "hemp", "coir");
        var mats = factor("mat", "tray", "hemp", "coir", "pad", "felt", "none");
        var cover = factor("cover", "stack", "0", "3");
        var soakedRows = factor("soak", "row", "0", "4", "8");
        var columnsOfMat = factor("mat", "column", "hemp", "coir");
        var light = factor("light", "tray", "no", "yes");
        return List.of(
                of(place("spot 24"), List.of(soak, mat), THROUGH, HEIGHT),
                of(place("block 4", "spot 6"), List.of(soak, mat), THROUGH, HEIGHT),
                of(place("row 5", "column 5 across row"), List.of(mats), THROUGH, HEIGHT),
                of(place("shelf 3", "stack 4", "spot 3"), List.of(soak, cover), THROUGH, HEIGHT),
                of(
                        place("shelf 4", "row 3", "column 2 across row"),
                        List.of(soakedRows, columnsOfMat),
                        THROUGH,
                        HEIGHT),
                of(place("shelf 2", "spot 12"), List.of(soak, mat, light), THROUGH, HEIGHT));
    }

    private Trials planned(
            List<Factor> factors,
            Treatment control,
            List<Treatment> never,
            List<Batch> batches,
            Counting counting,
            AnalysisChoices choices,
            Optional<Rotation> rotation) {
        var changed = new Trial(
                trial.title(),
                trial.question(),
                trial.crop(),
                factors,
                control,
                never,
                trial.place(),
                trial.definitions(),
                batches,
                trial.replicates(),
                counting,
                trial.outcomes(),
                choices,
                trial.expectations(),
                trial.costs(),
                trial.gramsPerTray(),
                rotation,
                trial.uncoverDay(),
                trial.restrictions(),
                trial.conditions());
        return new Trials(changed, layout, readings);
    }

    /** The same with other names or levels of factors. */
    public Trials varying(List<Factor> factors) {
        return planned(
                factors,
                trial.control(),
                trial.never(),
                trial.batches(),
                trial.counting(),
                trial.choices(),
                trial.rotation());
    }

    /** The same with another level to compare with. */
    public Trials against(String factor, String level) {
        var control = new Treatment(Map.of(factor, level));
        return planned(
                trial.factors(),
                control,
                trial.never(),
                trial.batches(),
                trial.counting(),
                trial.choices(),
                trial.rotation());
    }

    /** The same with a combination that is never made. */
    public Trials never(Map<String, String> levels) {
        var never = List.of(new Treatment(levels));
        return planned(
                trial.factors(),
                trial.control(),
                never,
                trial.batches(),
                trial.counting(),
                trial.choices(),
                trial.rotation());
    }

    /** The same with something that trays share. */
    public Trials sharing(Batch batch) {
        return planned(
                trial.factors(),
                trial.control(),
                trial.never(),
                List.of(batch),
                trial.counting(),
                trial.choices(),
                trial.rotation());
    }

    /** The same with trays that change places. */
    public Trials rotating(Rotation rotation) {
        return planned(
                trial.factors(),
                trial.control(),
                trial.never(),
                trial.batches(),
                trial.counting(),
                trial.choices(),
                Optional.of(rotation));
    }

    /** The same counted otherwise. */
    public Trials counted(Counting counting) {
        return planned(
                trial.factors(),
                trial.control(),
                trial.never(),
                trial.batches(),
                counting,
                trial.choices(),
                trial.rotation());
    }

    /** The same counted otherwise. */
    public Trials counted(int frames, boolean cumulative) {
        return counted(new Counting(List.of(1, 2, 3), frames, SEEDS, cumulative));
    }

    /** The same with interactions up to an order. */
    public Trials interactions(int order) {
        var choices = new AnalysisChoices(
                trial.choices().alpha(), order, trial.choices().scale());
        return planned(
                trial.factors(),
                trial.control(),
                trial.never(),
                trial.batches(),
                trial.counting(),
                choices,
                trial.rotation());
    }

    /** Laid out by chance as the plan allows. */
    public Trials drawn(long seed) {
        return with(Randomisation.of(trial).draw(Generator.of(seed)));
    }

    /** Laid out by hand: what each stand gets, level by level in the plan's order of factors. */
    public Trials laid(Function<List<Integer>, List<String>> given) {
        var trays = new ArrayList<Tray>();
        for (Stand stand : trial.place().stands()) {
            var levels = new LinkedHashMap<String, String>();
            var said = given.apply(stand.at());
            for (int f = 0; f < said.size(); f++) {
                levels.put(trial.factors().get(f).name(), said.get(f));
            }
            trays.add(new Tray("T" + (trays.size() + 1), stand, Map.of(), new Treatment(levels)));
        }
        return with(new Layout(trays));
    }

    /** The same with other trays. */
    public Trials with(Layout trays) {
        return new Trials(trial, trays, readings);
    }

    /** The same with only some of the trays; readings of the others go too. */
    public Trials keeping(Predicate<Tray> kept) {
        var trays = layout.trays().stream().filter(kept).toList();
        var codes = trays.stream().map(Tray::code).toList();
        return new Trials(
                trial,
                new Layout(trays),
                readings.stream().filter(r -> codes.contains(r.tray())).toList());
    }

    /** The same with other readings. */
    public Trials with(List<Reading> others) {
        return new Trials(trial, layout, others);
    }

    /** One frame of a tray on a day, read to hold these values. */
    public static Reading reading(String tray, int day, int frame, Map<String, Double> values) {
        return new Reading(tray, day, frame, OptionalInt.empty(), values, Map.of());
    }

    /** Every frame of every tray read on the last day. */
    public Trials read(Function<Tray, Map<String, Double>> values) {
        var read = new ArrayList<Reading>();
        for (Tray tray : layout.trays()) {
            for (int frame = 1; frame <= trial.counting().framesPerTray(); frame++) {
                read.add(reading(tray.code(), 3, frame, values.apply(tray)));
            }
        }
        return with(read);
    }

    /** Every tray read on the last day, the same number through in all. */
    public Trials readAll(double through) {
        return read(tray -> Map.of("through", through));
    }

    /** The number of a tray, in the layout's order. */
    public Map<String, Integer> numbers() {
        var numbers = new HashMap<String, Integer>();
        layout.trays().forEach(t -> numbers.put(t.code(), numbers.size()));
        return numbers;
    }

    /** What the analysis finds; laid out by hand, as far as it knows. */
    public Findings findings() {
        return Analysis.of(
                trial, layout, readings, new Sealing(Seal.State.ABSENT, Optional.empty(), "plan", "layout"), "test");
    }
}
