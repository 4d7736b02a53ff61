package org.fairtray.analysis;

import static tech.tablesaw.aggregate.AggregateFunctions.count;
import static tech.tablesaw.aggregate.AggregateFunctions.mean;
import static tech.tablesaw.aggregate.AggregateFunctions.sum;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
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
        var table = table(outcome.name(), outcome.of());
        var day = table.where(table.intColumn("day").isEqualTo(outcome.day()));
        var sums = day.summarize("value", "of", sum).by("tray");
        var tallies = new LinkedHashMap<String, Tally>();
        for (Row row : sums) {
            tallies.put(
                    row.getString("tray"),
                    new Tally(Math.round(row.getDouble("Sum [value]")), Math.round(row.getDouble("Sum [of]"))));
        }
        return tallies;
    }

    /** Means over frames by tray on the day of a measure. */
    Map<String, Double> means(Outcome.Measure outcome) {
        var table = table(outcome.name(), "sown");
        var day = table.where(table.intColumn("day").isEqualTo(outcome.day()));
        var means = new LinkedHashMap<String, Double>();
        for (Row row : day.summarize("value", mean).by("tray")) {
            means.put(row.getString("tray"), row.getDouble("Mean [value]"));
        }
        return means;
    }

    /** The counts of a column by treatment and day, out of the seeds sown. */
    List<Findings.Progress> progress(String column, Layout layout) {
        var table = table(column, "sown");
        var trays = table.summarize("value", "of", sum).by("tray", "day");
        Map<String, Tray> byCode = new HashMap<>();
        layout.trays().forEach(t -> byCode.put(t.code(), t));
        var numbers = new LinkedHashMap<Map<String, String>, String>();
        layout.trays().stream()
                .map(t -> t.treatment().levels())
                .forEach(t -> numbers.putIfAbsent(t, Integer.toString(numbers.size())));
        var treatment = StringColumn.create(
                "treatment",
                trays.stringColumn("tray").asList().stream()
                        .map(code -> numbers.get(byCode.get(code).treatment().levels())));
        var byDay = trays.addColumns(treatment)
                .summarize("Sum [value]", "Sum [of]", sum, count)
                .by("treatment", "day");
        Map<String, List<Findings.Point>> points = new HashMap<>();
        for (Row row : byDay.sortOn("day")) {
            points.computeIfAbsent(row.getString("treatment"), t -> new ArrayList<>())
                    .add(point(row));
        }
        var progress = new ArrayList<Findings.Progress>();
        trial.treatments().stream()
                .map(t -> t.levels())
                .filter(t -> points.containsKey(numbers.get(t)))
                .forEach(t -> progress.add(new Findings.Progress(column, t, points.get(numbers.get(t)))));
        return progress;
    }

    private static Findings.Point point(Row row) {
        long successes = Math.round(row.getDouble("Sum [Sum [value]]"));
        long of = Math.round(row.getDouble("Sum [Sum [of]]"));
        return new Findings.Point(
                row.getInt("day"),
                (int) row.getDouble("Count [Sum [of]]"),
                successes,
                of,
                of == 0 ? null : (double) successes / of);
    }

    /** Whether a column was read at all. */
    boolean has(String column) {
        return frames.stream().anyMatch(f -> f.values().containsKey(column));
    }

    /** The frames in which both a column and what it is out of were read. */
    private Table table(String column, String of) {
        var read = frames.stream()
                .filter(f -> f.values().containsKey(column) && f.base(of).isPresent())
                .toList();
        return Table.create(
                StringColumn.create("tray", read.stream().map(Frame::tray)),
                IntColumn.create("day", read.stream().mapToInt(Frame::day)),
                DoubleColumn.create(
                        "value", read.stream().mapToDouble(f -> f.values().get(column))),
                DoubleColumn.create(
                        "of", read.stream().mapToDouble(f -> f.base(of).orElseThrow())));
    }
}
