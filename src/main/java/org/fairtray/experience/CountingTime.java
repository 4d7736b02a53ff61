package org.fairtray.experience;

import java.time.Duration;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.fairtray.statistics.Interval;
import org.fairtray.trial.Reading;

/**
 * How long counting one frame took: the time from one reading to the next of the same counter on the same day. A gap
 * above {@value #BREAK_MINUTES} minutes is a break and not counted (common practice, no source).
 */
final class CountingTime {
    private static final int BREAK_MINUTES = 15;
    private static final int FEWEST_GAPS = 5;

    private CountingTime() {}

    /**
     * Minutes for a frame, on average over all gaps; likely from the quickest to the slowest day. Empty with fewer than
     * {@value #FEWEST_GAPS} gaps, or where the readings have no column {@code time} of times such as 08:15, 08:15:30 or
     * 2026-03-04T08:15.
     */
    static Optional<Learned> minutesPerFrame(List<Reading> readings) {
        Map<String, List<LocalTime>> sittings = new TreeMap<>();
        for (Reading reading : readings) {
            time(reading)
                    .ifPresent(t -> sittings.computeIfAbsent(
                                    reading.day() + " " + reading.notes().getOrDefault("by", ""),
                                    s -> new ArrayList<>())
                            .add(t));
        }
        var means = new ArrayList<Double>();
        double minutes = 0;
        int gaps = 0;
        for (var times : sittings.values()) {
            var kept = gaps(times);
            if (!kept.isEmpty()) {
                double sum = kept.stream().mapToDouble(Double::doubleValue).sum();
                means.add(sum / kept.size());
                minutes += sum;
                gaps += kept.size();
            }
        }
        if (gaps < FEWEST_GAPS || minutes == 0) {
            return Optional.empty();
        }
        var spread = means.stream().mapToDouble(Double::doubleValue).summaryStatistics();
        return Optional.of(new Learned(minutes / gaps, new Interval(spread.getMin(), spread.getMax())));
    }

    private static List<Double> gaps(List<LocalTime> times) {
        var sorted = times.stream().sorted().toList();
        var gaps = new ArrayList<Double>();
        for (int i = 1; i < sorted.size(); i++) {
            double gap = Duration.between(sorted.get(i - 1), sorted.get(i)).toSeconds() / 60.0;
            if (gap <= BREAK_MINUTES) {
                gaps.add(gap);
            }
        }
        return gaps;
    }

    private static Optional<LocalTime> time(Reading reading) {
        return Optional.ofNullable(reading.notes().get("time")).flatMap(CountingTime::parsed);
    }

    private static Optional<LocalTime> parsed(String text) {
        try {
            String written = text.strip();
            if (!written.contains("T")) {
                return Optional.of(LocalTime.parse(written));
            }
            boolean zoned = written.matches(".*(Z|[+-]\\d\\d:?\\d\\d)$");
            return Optional.of(
                    zoned
                            ? OffsetDateTime.parse(written).toLocalTime()
                            : LocalDateTime.parse(written).toLocalTime());
        } catch (DateTimeParseException notATime) {
            return Optional.empty();
        }
    }
}
