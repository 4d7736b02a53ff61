package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Trial;

/**
 * Readings as the text of their cells, by column, the way readings.csv has them; and whether such text makes sense.
 * Columns that the plan doesn't know are notes.
 */
public final class ReadingCells {
    private final Trial trial;
    private final ReadingColumns columns;

    public ReadingCells(Trial trial) {
        this.trial = trial;
        this.columns = new ReadingColumns(trial);
    }

    /** A column that is counted or measured, and the column it can't exceed; none for a measure. */
    public record Column(String name, Optional<String> of) {}

    /** Every column of counts and measures that the plan asks for, counts first. */
    public List<Column> columns() {
        var required = columns.required();
        return columns.values().stream()
                .filter(required::contains)
                .map(c -> new Column(c, Optional.ofNullable(columns.counts().get(c))))
                .toList();
    }

    /** Whether a column is counted or measured, or says how many seeds were sown. */
    public boolean isFigure(String column) {
        return column.equals(ReadingColumns.SOWN) || columns.values().contains(column);
    }

    /** The cells of a reading that aren't empty, without tray, day and frame. */
    public Map<String, String> of(Reading reading) {
        var cells = new LinkedHashMap<String, String>();
        reading.sown().ifPresent(seeds -> cells.put(ReadingColumns.SOWN, String.valueOf(seeds)));
        reading.values().forEach((column, value) -> cells.put(column, ReadingsFile.shown(value)));
        cells.putAll(reading.notes());
        return cells;
    }

    /**
     * The reading that cells make.
     *
     * @param problems gets what is wrong with them, in line 0
     * @return empty where something is
     */
    public Optional<Reading> reading(
            String tray, int day, int frame, Map<String, String> cells, List<Problem> problems) {
        var found = new Problems(ReadingsFile.NAME);
        var values = new LinkedHashMap<String, Double>();
        var notes = new LinkedHashMap<String, String>();
        var sown = OptionalInt.empty();
        for (var entry : cells.entrySet()) {
            var column = entry.getKey();
            var cell = new Cell(column, entry.getValue(), 0, false, found);
            if (cell.empty()) {
                continue;
            }
            if (column.equals(ReadingColumns.SOWN)) {
                sown = cell.number(1, CountingReader.MOST_SEEDS)
                        .map(OptionalInt::of)
                        .orElse(OptionalInt.empty());
            } else if (columns.values().contains(column)) {
                columns.value(cell).ifPresent(value -> values.put(column, value));
            } else {
                notes.put(column, entry.getValue());
            }
        }
        problems.addAll(found.byLine());
        return found.none() ? Optional.of(new Reading(tray, day, frame, sown, values, notes)) : Optional.empty();
    }

    /** What is wrong with the readings of one frame, held against one another and the seeds sown. */
    public List<Problem> problems(List<Reading> ofOneFrame) {
        var found = new Problems(ReadingsFile.NAME);
        var lines = new ArrayList<ReadingsFile.Line>();
        ofOneFrame.forEach(reading -> lines.add(new ReadingsFile.Line(0, reading)));
        new ReadingChecks(trial, columns.counts(), false, found).check(lines);
        return found.byLine();
    }

    /** The names of columns that say what a reading is of, and can't be written as a note. */
    public static Set<String> keys() {
        return Set.of(ReadingColumns.TRAY, ReadingColumns.DAY, ReadingColumns.FRAME);
    }
}
