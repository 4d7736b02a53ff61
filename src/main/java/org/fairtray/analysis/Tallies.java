package org.fairtray.analysis;

import static tech.tablesaw.aggregate.AggregateFunctions.count;
import static tech.tablesaw.aggregate.AggregateFunctions.sum;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import tech.tablesaw.api.DoubleColumn;
import tech.tablesaw.api.IntColumn;
import tech.tablesaw.api.Row;
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;

/**
 * Readings added up to trays: the tray is the unit of every analysis. A frame that was not read on a day is left out of
 * that day; counts of what is new are summed up to the day.
 */
final class Tallies {
    private final Trial trial;
    private final List<Frame> frames;

    /** One frame on one day, with counts as all so far. */
    private record Frame(String tray, int day, double sown, Map<String, Double> values) {
        OptionalDouble base(String of) {
            if (of.equals("sown")) {
                return OptionalDouble.of(sown);
            }
            var value = values.get(of);
            return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
        }
    }

    /** A tray's sums: so many of so many. */
    record Tally(long successes, long of) {}

    /** A column added up over a tray's frames on one day. */
    private record Sum(String tray, int day, double value, double of, int frames) {
        Tally tally() {
            return new Tally(Math.round(value), Math.round(of));
        }
    }

    private Tallies(Trial trial, List<Frame> frames) {
        this.trial = trial;
        this.frames = frames;
    }

    /** Takes in the readings of a trial. */
    static Tallies of(Trial trial, List<Reading> readings) {
        var measures = trial.outcomes().stream()
                .filter(o -> o.match(c -> false, m -> true))
                .map(Outcome::name)
                .toList();
        Map<List<Object>, Map<String, Double>> soFar = new HashMap<>();
        var frames = new ArrayList<Frame>();
        var inOrder =
                readings.stream().sorted(Comparator.comparingInt(Reading::day)).toList();
        for (Reading reading : inOrder) {
            var values = new LinkedHashMap<String, Double>();
            var sums = soFar.computeIfAbsent(List.of(reading.tray(), reading.frame()), f -> new HashMap<>());
            reading.values()
                    .forEach((column, value) -> values.put(
                            column,
                            trial.counting().cumulative() || measures.contains(column)
                                    ? value
                                    : sums.merge(column, value, Double::sum)));
            double sown = reading.sown().orElse(trial.counting().seedsPerFrame());
            frames.add(new Frame(reading.tray(), reading.day(), sown, values));
        }
        return new Tallies(trial, frames);
    }

    /** Counts by tray on the day of an outcome; a tray without a reading on it is absent. */
    Map<String, Tally> counts(Outcome.Count outcome) {
        var tallies = new LinkedHashMap<String, Tally>();
        sums(outcome.name(), outcome.of()).stream()
                .filter(s -> s.day() == outcome.day())
                .forEach(s -> tallies.put(s.tray(), s.tally()));
        return tallies;
    }

    /** Means over frames by tray on the day of a measure. */
    Map<String, Double> means(Outcome.Measure outcome) {
        var means = new LinkedHashMap<String, Double>();
        sums(outcome.name(), "sown").stream()
                .filter(s -> s.day() == outcome.day())
                .forEach(s -> means.put(s.tray(), s.value() / s.frames()));
        return means;
    }

    /** The counts of a column by treatment and day, out of the seeds sown. */
    List<Findings.Progress> progress(String column, Layout layout) {
        Map<String, Treatment> treatments =
                layout.trays().stream().collect(Collectors.toMap(Tray::code, Tray::treatment));
        Map<Treatment, SortedMap<Integer, List<Sum>>> byTreatment = new HashMap<>();
        sums(column, "sown")
                .forEach(s -> byTreatment
                        .computeIfAbsent(treatments.get(s.tray()), t -> new TreeMap<>())
                        .computeIfAbsent(s.day(), d -> new ArrayList<>())
                        .add(s));
        return trial.treatments().stream()
                .filter(byTreatment::containsKey)
                .map(t -> new Findings.Progress(column, t.levels(), points(byTreatment.get(t))))
                .toList();
    }

    private static List<Findings.Point> points(SortedMap<Integer, List<Sum>> byDay) {
        var points = new ArrayList<Findings.Point>();
        byDay.forEach((day, sums) -> {
            long successes = sums.stream().mapToLong(s -> s.tally().successes()).sum();
            long of = sums.stream().mapToLong(s -> s.tally().of()).sum();
            Double rate = of == 0 ? null : Double.valueOf((double) successes / of);
            points.add(new Findings.Point(day, sums.size(), successes, of, rate));
        });
        return points;
    }

    /** Whether a column was read at all. */
    boolean has(String column) {
        return frames.stream().anyMatch(f -> f.values().containsKey(column));
    }

    /** A column's sums over the frames of each tray and day in which it and what it is out of were read. */
    private List<Sum> sums(String column, String of) {
        var read = frames.stream()
                .filter(f -> f.values().containsKey(column) && f.base(of).isPresent())
                .toList();
        if (read.isEmpty()) {
            return List.of();
        }
        return sums(Table.create(
                StringColumn.create("tray", read.stream().map(Frame::tray)),
                IntColumn.create("day", read.stream().mapToInt(Frame::day)),
                DoubleColumn.create(
                        "value", read.stream().mapToDouble(f -> f.values().get(column))),
                DoubleColumn.create(
                        "of", read.stream().mapToDouble(f -> f.base(of).orElseThrow()))));
    }

    /** Adds up a table of one tray: the first use of the library is the slow one. */
    static void prepare() {
        sums(Table.create(
                StringColumn.create("tray", "T01"),
                IntColumn.create("day", new int[] {1}),
                DoubleColumn.create("value", new double[] {1}),
                DoubleColumn.create("of", new double[] {2})));
    }

    private static List<Sum> sums(Table table) {
        var sums = new ArrayList<Sum>();
        for (Row row : table.summarize("value", "of", sum, count).by("tray", "day")) {
            sums.add(new Sum(
                    row.getString("tray"),
                    row.getInt("day"),
                    row.getDouble("Sum [value]"),
                    row.getDouble("Sum [of]"),
                    (int) row.getDouble("Count [value]")));
        }
        return sums;
    }
}
