package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Trial;

/** What the columns of the readings mean under a plan. */
final class ReadingColumns {
    static final String TRAY = "tray";
    static final String DAY = "day";
    static final String FRAME = "frame";
    static final String SOWN = "sown";
    static final String GERMINATED = "germinated";
    static final String THROUGH = "through";
    /** Columns that are kept as notes without a word. */
    private static final Set<String> USUAL_NOTES = Set.of("note", "by", "time");

    private final Trial trial;
    private final Map<String, String> counts = new LinkedHashMap<>();
    private final Set<String> measures = new LinkedHashSet<>();
    private final List<String> values;

    ReadingColumns(Trial trial) {
        this.trial = trial;
        counts.put(GERMINATED, SOWN);
        counts.put(THROUGH, GERMINATED);
        for (Outcome outcome : trial.outcomes()) {
            outcome.match(
                    count -> counts.putIfAbsent(count.name(), count.of()), measure -> measures.add(measure.name()));
        }
        values = Stream.concat(counts.keySet().stream(), measures.stream()).toList();
    }

    /** Every column of counts with the column that it can't exceed: germinated, through and the outcomes that count. */
    Map<String, String> counts() {
        return counts;
    }

    /** Every column of counts and measures. */
    List<String> values() {
        return values;
    }

    Optional<Double> value(Cell cell) {
        return measures.contains(cell.column()) ? cell.measure() : cell.count().map(Integer::doubleValue);
    }

    boolean frames() {
        return trial.counting().framesPerTray() > 1;
    }

    List<String> required() {
        var required = new ArrayList<>(List.of(TRAY, DAY));
        if (frames()) {
            required.add(FRAME);
        }
        boolean ofGerminated = trial.outcomes().stream()
                .anyMatch(o -> o.match(count -> count.of().equals(GERMINATED), measure -> false));
        if (ofGerminated) {
            required.add(GERMINATED);
        }
        trial.outcomes().stream()
                .map(Outcome::name)
                .filter(o -> !required.contains(o))
                .forEach(required::add);
        return required;
    }

    /** Every column that means something; all others are notes. */
    List<String> known() {
        return Stream.concat(Stream.of(TRAY, DAY, FRAME, SOWN), values().stream())
                .toList();
    }

    /** Columns that mean something where they are there, and needn't be. */
    List<String> optional() {
        var required = required();
        return known().stream().filter(c -> !required.contains(c)).toList();
    }

    /** The columns of a file that are kept as notes, in the file's order. */
    List<String> notes(List<String> columns) {
        var known = known();
        return columns.stream().filter(c -> !known.contains(c)).toList();
    }

    /** Notes that may surprise: they might have been meant as something else. */
    static List<String> unusual(List<String> notes) {
        return notes.stream().filter(n -> !USUAL_NOTES.contains(n)).toList();
    }
}
