package org.fairtray.files;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Trial;

/** Whether the readings of each frame agree with one another: no day twice, no count that falls or exceeds its whole. */
final class ReadingChecks {
    private final Trial trial;
    private final Map<String, String> counts;
    private final boolean sownColumn;
    private final Problems problems;

    /**
     * @param counts every column of counts with the column that it can't exceed
     * @param sownColumn whether the readings say how many seeds were sown
     */
    ReadingChecks(Trial trial, Map<String, String> counts, boolean sownColumn, Problems problems) {
        this.trial = trial;
        this.counts = counts;
        this.sownColumn = sownColumn;
        this.problems = problems;
    }

    private record Frame(String tray, int number) {}

    /** The readings in their order; seeds sown in a frame, where said on one day, are then said on all. */
    List<Reading> check(List<ReadingsFile.Line> lines) {
        var frames = new LinkedHashMap<Frame, List<ReadingsFile.Line>>();
        for (var line : lines) {
            var frame = new Frame(line.reading().tray(), line.reading().frame());
            frames.computeIfAbsent(frame, f -> new ArrayList<>()).add(line);
        }
        var sown = new HashMap<Frame, Integer>();
        frames.forEach((frame, days) -> {
            days.sort(Comparator.comparingInt(l -> l.reading().day()));
            checkDays(days);
            sown(days).ifPresent(seeds -> sown.put(frame, seeds));
            checkCounts(days, sown.getOrDefault(frame, trial.counting().seedsPerFrame()));
        });
        return lines.stream()
                .map(ReadingsFile.Line::reading)
                .map(r -> with(r, sown))
                .toList();
    }

    private static Reading with(Reading reading, Map<Frame, Integer> sown) {
        var seeds = sown.get(new Frame(reading.tray(), reading.frame()));
        return seeds == null
                ? reading
                : new Reading(
                        reading.tray(),
                        reading.day(),
                        reading.frame(),
                        OptionalInt.of(seeds),
                        reading.values(),
                        reading.notes());
    }

    private void checkDays(List<ReadingsFile.Line> days) {
        for (int i = 1; i < days.size(); i++) {
            var now = days.get(i).reading();
            if (now.day() == days.get(i - 1).reading().day()) {
                problems.add(
                        days.get(i).line(),
                        "%s, day %d%s again, which is in line %d already"
                                .formatted(
                                        tray(now),
                                        now.day(),
                                        frame(now),
                                        days.get(i - 1).line()),
                        "one line for each tray, day and frame");
            }
        }
    }

    /** The seeds sown in a frame, where any of its lines says so. */
    private OptionalInt sown(List<ReadingsFile.Line> days) {
        var said = days.stream().filter(l -> l.reading().sown().isPresent()).toList();
        if (said.isEmpty()) {
            days.stream().filter(l -> sownColumn && counted(l.reading())).forEach(this::refuseUnsown);
            return OptionalInt.empty();
        }
        var first = said.stream()
                .min(Comparator.comparingInt(ReadingsFile.Line::line))
                .orElseThrow();
        int seeds = first.reading().sown().getAsInt();
        for (var line : said) {
            int other = line.reading().sown().getAsInt();
            if (other != seeds) {
                problems.add(
                        line.line(),
                        other + " sown in " + tray(line.reading()) + frame(line.reading()),
                        seeds + ", as " + first.where());
            }
        }
        return OptionalInt.of(seeds);
    }

    private boolean counted(Reading reading) {
        return reading.values().keySet().stream().anyMatch(counts::containsKey);
    }

    private void refuseUnsown(ReadingsFile.Line line) {
        problems.add(
                line.line(),
                "an empty cell in column sown",
                "the seeds sown in " + tray(line.reading()) + frame(line.reading()) + ", since something was counted");
    }

    private void checkCounts(List<ReadingsFile.Line> days, int seeds) {
        boolean cumulative = trial.counting().cumulative();
        var totals = new FrameTotals(cumulative);
        for (var line : days) {
            var read = line.reading().values();
            var counted = counts.keySet().stream().filter(read::containsKey).toList();
            if (cumulative) {
                counted.forEach(column -> checkRising(line, column, totals));
            }
            totals.add(read, counts.keySet(), line);
            counted.forEach(column -> checkWhole(line, column, totals, seeds));
        }
    }

    private void checkRising(ReadingsFile.Line line, String column, FrameTotals before) {
        int count = line.reading().values().get(column).intValue();
        before.total(column)
                .filter(total -> count < total.count())
                .ifPresent(total -> problems.add(
                        line.line(),
                        column + " " + count + " on day " + line.reading().day(),
                        "%d or more, as %s: counts are cumulative and can't fall"
                                .formatted(total.count(), total.last().where())));
    }

    private void checkWhole(ReadingsFile.Line line, String column, FrameTotals totals, int seeds) {
        int total = totals.total(column).orElseThrow().count();
        var of = counts.get(column);
        int whole = totals.known(of).orElse(seeds);
        if (total > Math.min(whole, seeds)) {
            var reading = line.reading();
            problems.add(
                    line.line(),
                    column + " " + reading.values().get(column).intValue() + " on day " + reading.day()
                            + (trial.counting().cumulative() ? "" : ", " + total + " in all"),
                    "at most " + (whole < seeds ? whole + ", as many as " + of : seeds + ", the seeds sown"));
        }
    }

    private static String tray(Reading reading) {
        return "tray " + Wording.visible(reading.tray());
    }

    private String frame(Reading reading) {
        return trial.counting().framesPerTray() > 1 ? ", frame " + reading.frame() : "";
    }
}
