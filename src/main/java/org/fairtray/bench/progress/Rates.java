package org.fairtray.bench.progress;

import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Trial;

/**
 * What each tray gave in one column, by day: counts so far as a share of the seeds sown in the frames that were read, or
 * the mean of a measure over them.
 */
final class Rates {
    private final Map<String, SortedMap<Integer, Sum>> trays = new HashMap<>();

    /** A column added up over the frames of a tray that were read on a day. */
    private record Sum(double value, double of) {
        Sum plus(Sum other) {
            return new Sum(value + other.value, of + other.of);
        }
    }

    private record Frame(String tray, int number) {}

    private Rates() {}

    static Rates of(Trial trial, String column, boolean measure, List<Reading> readings) {
        var rates = new Rates();
        var soFar = new HashMap<Frame, Double>();
        boolean addedUp = !measure && !trial.counting().cumulative();
        for (var reading : inOrder(column, readings)) {
            double value = reading.values().get(column);
            if (addedUp) {
                value = soFar.merge(new Frame(reading.tray(), reading.frame()), value, Double::sum);
            }
            double of = measure ? 1 : reading.sown().orElse(trial.counting().seedsPerFrame());
            rates.add(reading, new Sum(value, of));
        }
        return rates;
    }

    private static List<Reading> inOrder(String column, List<Reading> readings) {
        return readings.stream()
                .filter(r -> r.values().containsKey(column))
                .sorted(Comparator.comparingInt(Reading::day))
                .toList();
    }

    private void add(Reading reading, Sum sum) {
        trays.computeIfAbsent(reading.tray(), t -> new TreeMap<>()).merge(reading.day(), sum, Sum::plus);
    }

    /** A tray's rates by day; none for a tray that was not read. */
    Map<Integer, Double> of(String tray) {
        var rates = new TreeMap<Integer, Double>();
        trays.getOrDefault(tray, Collections.emptySortedMap())
                .forEach((day, sum) -> rates.put(day, sum.value() / sum.of()));
        return Collections.unmodifiableMap(rates);
    }
}
