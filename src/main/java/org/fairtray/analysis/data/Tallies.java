package org.fairtray.analysis.data;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import tech.tablesaw.api.DoubleColumn;
import tech.tablesaw.api.IntColumn;
import tech.tablesaw.api.StringColumn;

/**
 * Readings added up to trays: the tray is the unit of every analysis. A frame that was not read on a day is left out of
 * that day; counts of what is new are summed up to the day.
 *
 * <p>The readings stand in columns with a row for each frame and day: tray, day, frame, sown, and each count or measure, missing
 * where it was not read. They are not joined into the library's table: making the first one searches the class path, which
 * takes a quarter of the time of a small analysis, and its grouping makes a table for every group.
 */
public final class Tallies {
    private static final String SOWN = "sown";
    private static final String COUNTER = "by";

    private final Trial trial;
    private final StringColumn trays;
    private final IntColumn days;
    private final IntColumn frames;
    private final DoubleColumn sown;
    private final Map<String, DoubleColumn> read;
    private final List<Optional<String>> counters;

    /** A tray's sums: so many of so many. */
    public record Tally(long successes, long of) {}

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

    /** Takes in the readings of a trial, in the order of their days. */
    private Tallies(Trial trial, List<Reading> inOrder) {
        int usual = trial.counting().seedsPerFrame();
        this.trial = trial;
        this.trays = StringColumn.create("tray", inOrder.stream().map(Reading::tray));
        this.days = IntColumn.create("day", inOrder.stream().mapToInt(Reading::day));
        this.frames = IntColumn.create("frame", inOrder.stream().mapToInt(Reading::frame));
        this.sown = DoubleColumn.create(
                SOWN, inOrder.stream().mapToDouble(r -> r.sown().orElse(usual)));
        this.counters = inOrder.stream()
                .map(r -> Optional.ofNullable(r.notes().get(COUNTER)))
                .toList();
        this.read = new LinkedHashMap<>();
        inOrder.stream()
                .flatMap(r -> r.values().keySet().stream())
                .distinct()
                .forEach(name -> read.put(name, column(trial, name, inOrder)));
    }

    /** Takes in the readings of a trial. */
    public static Tallies of(Trial trial, List<Reading> readings) {
        return new Tallies(
                trial,
                readings.stream().sorted(Comparator.comparingInt(Reading::day)).toList());
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
    public Map<String, Tally> counts(Outcome.Count outcome) {
        var tallies = new LinkedHashMap<String, Tally>();
        sums(outcome.name(), outcome.of()).stream()
                .filter(s -> s.day() == outcome.day())
                .forEach(s -> tallies.put(s.tray(), s.tally()));
        return tallies;
    }

    /**
     * What came out of each tray by day, up to the day of an outcome and of the frames that count on that day. A day on
     * which one of these frames was not read, or on which more was counted than later on, is a day on which the tray was
     * not read. The seeds at risk are those that the outcome is out of on its day.
     *
     * @return by tray; one without a reading on the outcome's day, or with nothing at risk, is absent
     */
    public Map<String, DayCounts> courses(Outcome.Count outcome) {
        var values = read.get(outcome.name());
        var bases = outcome.of().equals(SOWN) ? sown : read.get(outcome.of());
        var courses = new LinkedHashMap<String, Course>();
        if (values == null || bases == null) {
            return Map.of();
        }
        for (int i = 0; i < values.size(); i++) {
            if (days.getInt(i) == outcome.day() && !values.isMissing(i) && !bases.isMissing(i)) {
                courses.computeIfAbsent(trays.get(i), t -> new Course()).count(frames.getInt(i), bases.getDouble(i));
            }
        }
        for (int i = 0; i < values.size(); i++) {
            var course = courses.get(trays.get(i));
            if (course != null && days.getInt(i) <= outcome.day() && !values.isMissing(i)) {
                course.add(days.getInt(i), frames.getInt(i), values.getDouble(i));
            }
        }
        var counts = new LinkedHashMap<String, DayCounts>();
        courses.forEach((tray, course) -> course.counts().ifPresent(c -> counts.put(tray, c)));
        return counts;
    }

    /** Means over frames by tray on the day of a measure. */
    public Map<String, Double> means(Outcome.Measure outcome) {
        var means = new LinkedHashMap<String, Double>();
        sums(outcome.name(), SOWN).stream()
                .filter(s -> s.day() == outcome.day())
                .forEach(s -> means.put(s.tray(), s.value() / s.frames()));
        return means;
    }

    /** Who read an outcome on its day, by tray; a tray whose readings don't say is absent. */
    public Map<String, SortedSet<String>> counters(Outcome outcome) {
        var values = read.get(outcome.name());
        Map<String, SortedSet<String>> who = new HashMap<>();
        for (int i = 0; values != null && i < values.size(); i++) {
            if (days.getInt(i) == outcome.day() && !values.isMissing(i)) {
                var tray = trays.get(i);
                counters.get(i)
                        .ifPresent(c ->
                                who.computeIfAbsent(tray, t -> new TreeSet<>()).add(c));
            }
        }
        return who;
    }

    /** Every column of counts that was read, by treatment and day: germinated, through, then the plan's others. */
    public List<Findings.Progress> progress(Layout layout) {
        var columns = new LinkedHashSet<>(List.of("germinated", "through"));
        trial.outcomes().stream().filter(o -> o.match(c -> true, m -> false)).forEach(o -> columns.add(o.name()));
        return columns.stream()
                .filter(read::containsKey)
                .flatMap(c -> progress(c, layout).stream())
                .toList();
    }

    /** The counts of a column by treatment and day, out of the seeds sown. */
    private List<Findings.Progress> progress(String column, Layout layout) {
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

    /** A column's sums over the frames of each tray and day in which it and what it is out of were read. */
    private List<Sum> sums(String column, String of) {
        var values = read.get(column);
        var bases = of.equals(SOWN) ? sown : read.get(of);
        if (values == null || bases == null) {
            return List.of();
        }
        Map<Key, Sum> sums = new LinkedHashMap<>();
        for (int i = 0; i < values.size(); i++) {
            if (!values.isMissing(i) && !bases.isMissing(i)) {
                var sum = new Sum(trays.get(i), days.getInt(i), values.getDouble(i), bases.getDouble(i), 1);
                sums.merge(new Key(sum.tray(), sum.day()), sum, Sum::plus);
            }
        }
        return List.copyOf(sums.values());
    }
}
