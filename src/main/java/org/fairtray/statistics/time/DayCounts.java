package org.fairtray.statistics.time;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How many of so many seeds were found to have germinated on each day read that had not on the day before it. Each did so
 * at some time since then, the first ones since day 0. Days may lie apart unevenly.
 *
 * @param days the days read, above 0 and rising, one or more
 * @param events new ones on each of these days, 0 or more
 * @param seeds all that were sown, above 0 and at least as many as the events
 */
public record DayCounts(List<Double> days, List<Long> events, long seeds) {

    /** @throws IllegalArgumentException if days don't rise from above 0, or events are not counts among the seeds */
    public DayCounts {
        days = List.copyOf(days);
        events = List.copyOf(events);
        if (days.isEmpty() || days.size() != events.size() || !rising(days)) {
            throw new IllegalArgumentException(
                    events.size() + " counts on days " + days + ": expected one for each, days rising from above 0");
        }
        long all = events.stream().mapToLong(Long::longValue).sum();
        if (seeds < 1 || all > seeds || events.stream().anyMatch(e -> e < 0)) {
            throw new IllegalArgumentException("events " + events + " of " + seeds
                    + " seeds: expected 0 or more each, at most the seeds together");
        }
    }

    private static boolean rising(List<Double> days) {
        return IntStream.range(0, days.size())
                .allMatch(i -> days.get(i) > (i == 0 ? 0 : days.get(i - 1)) && days.get(i) < Double.POSITIVE_INFINITY);
    }

    /** How many days were read. */
    public int size() {
        return days.size();
    }

    /** All that germinated. */
    public long germinated() {
        return cumulative(size() - 1);
    }

    /** How many had germinated by day i. */
    public long cumulative(int i) {
        return events.subList(0, i + 1).stream().mapToLong(Long::longValue).sum();
    }

    /** The day read before day i; 0 before the first. */
    public double before(int i) {
        return i == 0 ? 0 : days.get(i - 1);
    }

    /**
     * Both added up.
     *
     * @throws IllegalArgumentException if they were read on different days
     */
    public DayCounts plus(DayCounts other) {
        if (!days.equals(other.days)) {
            throw new IllegalArgumentException("days " + days + " and " + other.days + ": expected the same");
        }
        var sums = new ArrayList<Long>();
        for (int i = 0; i < size(); i++) {
            sums.add(events.get(i) + other.events.get(i));
        }
        return new DayCounts(days, sums, seeds + other.seeds);
    }
}
