package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;

/**
 * Readings added up to trays: the tray is the unit of every analysis. A frame that was not read on a day is left out of
 * that day; counts of what is new are summed up to the day.
 *
 * <p>The readings stand in a table with a row for each frame and day: tray, day, sown, and a column for each count or
 * measure, missing where it was not read. Adding up is a walk over its rows; the library's own grouping makes a table for
 * every group, which takes too long where there are thousands of trays.
 */
final class Tallies {
    private static final String TRAY = "tray";
    private static final String DAY = "day";
    private static final String SOWN = "sown";

    private final Trial trial;
    /** The columns of the readings; in the table, which does not tell capitals apart, they go by their numbers. */
    private final List<String> columns;

    private final Table frames;

    /** A tray's sums: so many of so many. */
    record Tally(long successes, long of) {}

    /** A column added up over a tray's frames on one day. */
    private record Sum(String tray, int day, double value, double of, int frames) {
        Sum plus(Sum other) {
            return new Sum(tray, day, value + other.value, of + other.of, frames + other.frames);
        }

        Tally tally() {
            return new Tally(Math.round(value), Math.round(of));
        }
    }

    private record Key(String tray, int day) {}

    private Tallies(Trial trial, List<String> columns, Table frames) {
        this.trial = trial;
        this.columns = columns;
        this.frames = frames;
    }

    /** Takes in the readings of a trial. */
    static Tallies of(Trial trial, List<Reading> readings) {
        var inOrder =
                readings.stream().sorted(Comparator.comparingInt(Reading::day)).toList();
        var columns = readings.stream()
                .flatMap(r -> r.values().keySet().stream())
                .distinct()
                .toList();
        var table = Table.create(
                StringColumn.create(TRAY, inOrder.stream().map(Reading::tray)),
                IntColumn.create(DAY, inOrder.stream().mapToInt(Reading::day)),
                DoubleColumn.create(
                        SOWN,
                        inOrder.stream()
                                .mapToDouble(
                                        r -> r.sown().orElse(trial.counting().seedsPerFrame()))));
        for (int c = 0; c < columns.size(); c++) {
            table.addColumns(column(trial, columns.get(c), inOrder).setName(Integer.toString(c)));
        }
        return new Tallies(trial, columns, table);
    }

    private static DoubleColumn column(Trial trial, String name, List<Reading> inOrder) {
        boolean addedUp = !trial.counting().cumulative()
                && trial.outcomes().stream()
                        .filter(o -> o.name().equals(name))
                        .noneMatch(o -> o.match(c -> false, m -> true));
        Map<List<Object>, Double> soFar = new HashMap<>();
        var column = DoubleColumn.create(name);
        for (Reading reading : inOrder) {
            Double value = reading.values().get(name);
            if (value == null) {
                column.appendMissing();
            } else {
                column.append(
                        addedUp
                                ? soFar.merge(List.of(reading.tray(), reading.frame()), value, Double::sum)
                                : value.doubleValue());
            }
        }
        return column;
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
        sums(outcome.name(), SOWN).stream()
                .filter(s -> s.day() == outcome.day())
                .forEach(s -> means.put(s.tray(), s.value() / s.frames()));
        return means;
    }

    /** The counts of a column by treatment and day, out of the seeds sown. */
    List<Findings.Progress> progress(String column, Layout layout) {
        Map<String, Treatment> treatments =
                layout.trays().stream().collect(Collectors.toMap(Tray::code, Tray::treatment));
        Map<Treatment, SortedMap<Integer, List<Sum>>> byTreatment = new HashMap<>();
        sums(column, SOWN)
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
        return columns.contains(column);
    }

    private DoubleColumn column(String name) {
        return frames.doubleColumn(name.equals(SOWN) ? SOWN : Integer.toString(columns.indexOf(name)));
    }

    /** A column's sums over the frames of each tray and day in which it and what it is out of were read. */
    private List<Sum> sums(String column, String of) {
        if (!has(column) || !(has(of) || of.equals(SOWN))) {
            return List.of();
        }
        var trays = frames.stringColumn(TRAY);
        var days = frames.intColumn(DAY);
        var values = column(column);
        var bases = column(of);
        Map<Key, Sum> sums = new LinkedHashMap<>();
        for (int i = 0; i < frames.rowCount(); i++) {
            if (!values.isMissing(i) && !bases.isMissing(i)) {
                var sum = new Sum(trays.get(i), days.getInt(i), values.getDouble(i), bases.getDouble(i), 1);
                sums.merge(new Key(sum.tray(), sum.day()), sum, Sum::plus);
            }
        }
        return List.copyOf(sums.values());
    }

    /** Makes a table: the first use of the library is the slow one. */
    static void prepare() {
        Table.create(TRAY);
    }
}
