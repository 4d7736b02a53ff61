package org.fairtray.sizing;

import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;

/**
 * Counts that no one took: beta-binomial around a rate that is moved, on the log-odds scale, by a normal effect of each
 * place unit.
 *
 * <p>Seeds are drawn one after the other, each the likelier to come out the more of its tray did before, which gives the
 * beta-binomial distribution exactly (an urn: Johnson and Kotz (1977), Urn Models and Their Application, section 4.2).
 *
 * @param rates the rate of each treatment, in (0, 1)
 * @param trayCorrelation intraclass correlation of two seeds of one tray, in [0, 1)
 * @param placeSd standard deviation of the units of a place level, log-odds, by level
 */
public record InventedCounts(ToDoubleFunction<Treatment> rates, double trayCorrelation, Map<String, Double> placeSd) {

    /** Levels are kept in alphabetical order, so that one seed draws the same counts on every run. */
    public InventedCounts {
        if (!(trayCorrelation >= 0 && trayCorrelation < 1)) {
            throw new IllegalArgumentException("correlation " + trayCorrelation + ": expected 0 to below 1");
        }
        placeSd = Collections.unmodifiableMap(new TreeMap<>(placeSd));
    }

    /** How far each tray's place moves its rate, log-odds; trays of one unit share what the unit adds. */
    public double[] shifts(Place place, List<Tray> trays, UniformRandomProvider random) {
        Map<String, Double> units = new HashMap<>();
        return trays.stream()
                .mapToDouble(tray -> shift(place, tray, units, random))
                .toArray();
    }

    private double shift(Place place, Tray tray, Map<String, Double> units, UniformRandomProvider random) {
        double shift = 0;
        for (var entry : placeSd.entrySet()) {
            String unit = entry.getKey() + " " + place.unit(entry.getKey(), tray.stand());
            shift += units.computeIfAbsent(unit, u -> entry.getValue() * Normal.draw(random));
        }
        return shift;
    }

    /**
     * One count for each tray.
     *
     * @param shifts of the trays' places
     * @param seeds sown in a tray
     */
    public List<Count> of(List<Tray> trays, double[] shifts, int seeds, UniformRandomProvider random) {
        return IntStream.range(0, shifts.length)
                .mapToObj(i -> count(shifted(rates.applyAsDouble(trays.get(i).treatment()), shifts[i]), seeds, random))
                .toList();
    }

    /** A rate moved by so much on the log-odds scale. */
    public static double shifted(double rate, double shift) {
        return LogisticFit.rate(Math.log(rate / (1 - rate)) + shift);
    }

    private Count count(double rate, int seeds, UniformRandomProvider random) {
        double theta = trayCorrelation / (1 - trayCorrelation);
        int successes = 0;
        for (int drawn = 0; drawn < seeds; drawn++) {
            successes += random.nextDouble() * (1 + drawn * theta) < rate + successes * theta ? 1 : 0;
        }
        return new Count(successes, seeds);
    }
}
