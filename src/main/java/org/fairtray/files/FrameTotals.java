package org.fairtray.files;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** What has been counted in one frame up to a day, column by column; days are added in their order. */
final class FrameTotals {
    private final boolean cumulative;
    private final Map<String, Total> totals = new HashMap<>();
    private final Set<String> today = new HashSet<>();
    private final Set<String> skipped = new HashSet<>();

    /** @param cumulative whether a count is all so far; otherwise only what is new */
    FrameTotals(boolean cumulative) {
        this.cumulative = cumulative;
    }

    /** A total and its last reading. */
    record Total(int count, ReadingsFile.Line last) {}

    /** Adds the counts of one day, which were read together; {@code columns} are all that could have been counted. */
    void add(Map<String, Double> counts, Set<String> columns, ReadingsFile.Line line) {
        today.clear();
        for (var column : columns) {
            if (counts.containsKey(column)) {
                today.add(column);
                int before = cumulative ? 0 : total(column).map(Total::count).orElse(0);
                totals.put(column, new Total(before + counts.get(column).intValue(), line));
            } else {
                skipped.add(column);
            }
        }
    }

    Optional<Total> total(String column) {
        return Optional.ofNullable(totals.get(column));
    }

    /**
     * All that is certain to have been counted by today; empty for a column that wasn't read today or, where only new
     * ones are counted, was skipped on any day.
     */
    OptionalInt known(String column) {
        boolean known = today.contains(column) && (cumulative || !skipped.contains(column));
        return known ? OptionalInt.of(totals.get(column).count()) : OptionalInt.empty();
    }
}
