package org.fairtray.sizing;

import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
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

    /**
     * One count for each tray.
     *
     * @param seeds sown in a tray
     */
    public List<Count> of(Place place, List<Tray> trays, int seeds, UniformRandomProvider random) {
        Map<String, Double> units = new HashMap<>();
        return trays.stream()
                .map(tray -> count(rate(place, tray, units, random), seeds, random))
                .toList();
    }

    private double rate(Place place, Tray tray, Map<String, Double> units, UniformRandomProvider random) {
        double rate = rates.applyAsDouble(tray.treatment());
        double odds = Math.log(rate / (1 - rate));
        for (var entry : placeSd.entrySet()) {
            String unit = entry.getKey() + " " + place.unit(entry.getKey(), tray.stand());
            odds += units.computeIfAbsent(unit, u -> entry.getValue() * Normal.draw(random));
        }
        return LogisticFit.rate(odds);
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
