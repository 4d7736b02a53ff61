package org.fairtray.analysis.data;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.fairtray.statistics.time.DayCounts;

/** One tray's cumulative counts, added up over the frames that count. */
final class Course {
    private final Set<Integer> frames = new HashSet<>();
    private final TreeMap<Integer, Sum> days = new TreeMap<>();
    private double atRisk;

    private record Sum(double value, int frames) {
        Sum plus(Sum other) {
            return new Sum(value + other.value, frames + other.frames);
        }
    }

    /** Takes in a frame that was read on the outcome's day, with its seeds at risk. */
    void count(int frame, double seeds) {
        frames.add(frame);
        atRisk += seeds;
    }

    /** Takes in what a frame had given by a day; frames that don't count, and the day of sowing, are passed by. */
    void add(int day, int frame, double value) {
        if (day > 0 && frames.contains(frame)) {
            days.merge(day, new Sum(value, 1), Sum::plus);
        }
    }

    /** New ones by day, from the last day back so that no count is above a later one; empty with nothing at risk. */
    Optional<DayCounts> counts() {
        var kept = new ArrayList<Double>();
        var cumulative = new ArrayList<Long>();
        for (int day : days.descendingKeySet()) {
            long value = Math.round(days.get(day).value());
            boolean whole = days.get(day).frames() == frames.size();
            if (whole && (cumulative.isEmpty() || value <= cumulative.get(cumulative.size() - 1))) {
                kept.add((double) day);
                cumulative.add(value);
            }
        }
        Collections.reverse(kept);
        Collections.reverse(cumulative);
        long seeds = Math.round(atRisk);
        return kept.isEmpty() || seeds == 0
                ? Optional.empty()
                : Optional.of(new DayCounts(kept, differences(cumulative), seeds));
    }

    private static List<Long> differences(List<Long> cumulative) {
        var differences = new ArrayList<Long>();
        for (int i = 0; i < cumulative.size(); i++) {
            differences.add(cumulative.get(i) - (i == 0 ? 0 : cumulative.get(i - 1)));
        }
        return differences;
    }
}
