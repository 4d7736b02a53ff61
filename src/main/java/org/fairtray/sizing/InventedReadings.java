package org.fairtray.sizing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Readings that no one took: seeds that germinate and root through at random times, with trays and the units of a place
 * level differing as real ones do. Each seed germinates or not, at a log-logistic time; of those that do, some root
 * through a day or more later.
 *
 * @param germinates log-odds that a seed of a treatment germinates at all
 * @param through log-odds that a germinated seed of a treatment roots through at all
 * @param medianDays the time by which half of those that germinate have done so, by treatment
 * @param unitSd standard deviation of units of a place level, log-odds, by level; {@code tray} for single trays
 */
public record InventedReadings(
        ToDoubleFunction<Treatment> germinates,
        ToDoubleFunction<Treatment> through,
        ToDoubleFunction<Treatment> medianDays,
        Map<String, Double> unitSd) {
    private static final double STEEPNESS = 5;

    /** Levels are kept in alphabetical order, so that one seed draws the same readings on every run. */
    public InventedReadings {
        unitSd = Collections.unmodifiableMap(new TreeMap<>(unitSd));
    }

    /** Reads every tray, frame and day of a layout; the last reading day is the last that is counted. */
    public List<Reading> of(Trial trial, Layout layout, UniformRandomProvider random) {
        Map<String, Double> units = new HashMap<>();
        var readings = new ArrayList<Reading>();
        for (Tray tray : layout.trays()) {
            double shift = 0;
            for (var entry : unitSd.entrySet()) {
                String unit = entry.getKey() + " " + trial.place().unit(entry.getKey(), tray.stand());
                shift += units.computeIfAbsent(unit, u -> entry.getValue() * Normal.draw(random));
            }
            for (int frame = 1; frame <= trial.counting().framesPerTray(); frame++) {
                readings.addAll(frame(trial, tray, frame, shift, random));
            }
        }
        return readings;
    }

    private List<Reading> frame(Trial trial, Tray tray, int frame, double shift, UniformRandomProvider random) {
        var days = trial.counting().days();
        var germinated = new int[days.size()];
        var rooted = new int[days.size()];
        for (int seed = 0; seed < trial.counting().seedsPerFrame(); seed++) {
            double sprouts = sproutingDay(tray.treatment(), shift, random);
            double roots = rootingDay(tray.treatment(), shift, sprouts, random);
            for (int d = 0; d < germinated.length; d++) {
                germinated[d] += sprouts <= days.get(d) ? 1 : 0;
                rooted[d] += roots <= days.get(d) ? 1 : 0;
            }
        }
        var readings = new ArrayList<Reading>();
        for (int d = 0; d < germinated.length; d++) {
            var values = new LinkedHashMap<String, Double>();
            values.put("germinated", (double) germinated[d]);
            values.put("through", (double) rooted[d]);
            readings.add(new Reading(tray.code(), days.get(d), frame, OptionalInt.empty(), values, Map.of()));
        }
        return readings;
    }

    private double sproutingDay(Treatment treatment, double shift, UniformRandomProvider random) {
        double u = random.nextDouble();
        boolean ever = random.nextDouble() < LogisticFit.rate(germinates.applyAsDouble(treatment) + shift / 2);
        double day = medianDays.applyAsDouble(treatment) * Math.pow(u / (1 - u), 1 / STEEPNESS);
        return ever ? day : Double.POSITIVE_INFINITY;
    }

    private double rootingDay(Treatment treatment, double shift, double sprouts, UniformRandomProvider random) {
        double lag = 1 - Math.log(1 - random.nextDouble());
        boolean ever = random.nextDouble() < LogisticFit.rate(through.applyAsDouble(treatment) + shift);
        return ever ? sprouts + lag : Double.POSITIVE_INFINITY;
    }
}
