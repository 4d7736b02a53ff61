package org.fairtray.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Trial;

/** readings.csv: one line for each tray, day and counting frame. */
public final class ReadingsFile {
    static final String NAME = "readings.csv";

    private final Trial trial;
    private final ReadingColumns columns;
    private final Sheet sheet;
    private final Problems problems;
    private final Optional<Set<String>> codes;

    private ReadingsFile(Trial trial, Sheet sheet, Problems problems, Optional<Set<String>> codes) {
        this.trial = trial;
        this.columns = new ReadingColumns(trial);
        this.sheet = sheet;
        this.problems = problems;
        this.codes = codes;
    }

    /**
     * Readings with the columns kept as notes, in the file's order, and what the grower should know of how the file was
     * understood.
     */
    record Read(List<Reading> readings, List<String> noteColumns, List<String> notices) {}

    /** A reading and the line it stands in. */
    record Line(int line, Reading reading) {
        /** Where it is to be found: by its line, or by its day where it doesn't come from a file. */
        String where() {
            return line > 0 ? "in line " + line : "on day " + reading.day();
        }
    }

    /**
     * The readings as the text of readings.csv, in their order.
     *
     * @param noteColumns the columns of notes in their order; those of the readings that it lacks follow
     */
    public static String text(Trial trial, List<Reading> readings, List<String> noteColumns) {
        var columns = new ReadingColumns(trial);
        boolean frame = columns.frames();
        boolean sown = sown(readings);
        var values = values(columns, readings);
        var notes = notes(readings, noteColumns);
        var csv = new CsvText();
        csv.add(header(frame, sown, values, notes));
        readings.forEach(r -> csv.add(row(r, frame, sown, values, notes)));
        return csv.text();
    }

    /** The columns that such a text has, in their order. */
    public static List<String> columns(Trial trial, List<Reading> readings, List<String> noteColumns) {
        var columns = new ReadingColumns(trial);
        return header(columns.frames(), sown(readings), values(columns, readings), notes(readings, noteColumns));
    }

    private static boolean sown(List<Reading> readings) {
        return readings.stream().anyMatch(r -> r.sown().isPresent());
    }

    private static List<String> values(ReadingColumns columns, List<Reading> readings) {
        return columns.values().stream()
                .filter(c -> columns.required().contains(c)
                        || readings.stream().anyMatch(r -> r.values().containsKey(c)))
                .toList();
    }

    private static Set<String> notes(List<Reading> readings, List<String> noteColumns) {
        var notes = new LinkedHashSet<>(noteColumns);
        readings.forEach(r -> notes.addAll(r.notes().keySet()));
        return notes;
    }

    private static List<String> header(boolean frame, boolean sown, List<String> values, Collection<String> notes) {
        var cells = new ArrayList<>(List.of(ReadingColumns.TRAY, ReadingColumns.DAY));
        if (frame) {
            cells.add(ReadingColumns.FRAME);
        }
        if (sown) {
            cells.add(ReadingColumns.SOWN);
        }
        cells.addAll(values);
        cells.addAll(notes);
        return cells;
    }

    private static List<String> row(
            Reading reading, boolean frame, boolean sown, List<String> values, Collection<String> notes) {
        var cells = new ArrayList<>(List.of(reading.tray(), String.valueOf(reading.day())));
        if (frame) {
            cells.add(String.valueOf(reading.frame()));
        }
        if (sown) {
            cells.add(reading.sown().isPresent() ? String.valueOf(reading.sown().getAsInt()) : "");
        }
        values.forEach(c -> cells.add(shown(reading.values().get(c))));
        notes.forEach(c -> cells.add(reading.notes().getOrDefault(c, "")));
        return cells;
    }

    /** A value so that it is read back exactly; whole numbers without a point, an empty cell for none. */
    static String shown(Double value) {
        if (value == null) {
            return "";
        }
        boolean whole = value == Math.rint(value) && Math.abs(value) < 1e15;
        return whole ? String.valueOf(value.longValue()) : value.toString();
    }

    /**
     * Reads the readings; what is wrong is noted in {@code problems}.
     *
     * @param codes the layout's trays; empty where they aren't known because the layout is broken
     * @return the readings whose lines are sound
     */
    static Read read(Trial trial, StoredFile file, Problems problems, Optional<Set<String>> codes) {
        var sheet = Sheet.read(file, problems);
        return new ReadingsFile(trial, sheet, problems, codes).read();
    }

    private Read read() {
        sheet.atLeast(columns.required(), columns.known());
        var notes = columns.notes(sheet.columns());
        sheet.noneAlmost(notes, columns.optional());
        var lines = new ArrayList<Line>();
        for (var row : sheet.rows()) {
            reading(row, notes).ifPresent(r -> lines.add(new Line(row.line(), r)));
        }
        var readings =
                new ReadingChecks(trial, columns.counts(), sheet.has(ReadingColumns.SOWN), problems).check(lines);
        return new Read(readings, notes, notices(notes));
    }

    private List<String> notices(List<String> notes) {
        var notices = new ArrayList<String>();
        if (!sheet.separatedBy().equals("commas")) {
            notices.add(
                    NAME + " is separated by " + sheet.separatedBy() + "; a comma in a number is read as its point");
        }
        var unusual = ReadingColumns.unusual(notes);
        if (!unusual.isEmpty()) {
            notices.add(NAME + " has columns that the plan doesn't ask for; they are kept as notes: "
                    + Wording.list(unusual));
        }
        return notices;
    }

    private Optional<Reading> reading(Sheet.Row row, List<String> notes) {
        var tray = row.cell(ReadingColumns.TRAY).flatMap(c -> c.tray(codes));
        var day = row.cell(ReadingColumns.DAY).flatMap(this::day);
        var frame = row.cell(ReadingColumns.FRAME)
                .map(c -> c.number(1, trial.counting().framesPerTray()))
                .orElse(columns.frames() ? Optional.empty() : Optional.of(1));
        var sown = sown(row);
        var values = values(row);
        boolean sound =
                tray.isPresent() && day.isPresent() && frame.isPresent() && sown.isPresent() && values.isPresent();
        return sound
                ? Optional.of(
                        new Reading(tray.get(), day.get(), frame.get(), sown.get(), values.get(), notes(row, notes)))
                : Optional.empty();
    }

    private Optional<Integer> day(Cell cell) {
        var days = trial.counting().days();
        return cell.day().flatMap(day -> days.contains(day) ? Optional.of(day) : cell.refuse(dayOf(days)));
    }

    private static String dayOf(List<Integer> days) {
        return "a day of the plan's counting: "
                + Wording.oneOf(days.stream().map(String::valueOf).toList());
    }

    /** Empty where the cell is wrong; holding an empty number where none was written. */
    private static Optional<OptionalInt> sown(Sheet.Row row) {
        var cell = row.cell(ReadingColumns.SOWN).filter(c -> !c.empty());
        return cell.isEmpty()
                ? Optional.of(OptionalInt.empty())
                : cell.get().number(1, CountingReader.MOST_SEEDS).map(OptionalInt::of);
    }

    private Optional<Map<String, Double>> values(Sheet.Row row) {
        var values = new LinkedHashMap<String, Double>();
        boolean sound = true;
        for (var column : columns.values()) {
            var cell = row.cell(column).filter(c -> !c.empty());
            var value = cell.flatMap(columns::value);
            value.ifPresent(v -> values.put(column, v));
            sound &= value.isPresent() == cell.isPresent();
        }
        return sound ? Optional.of(values) : Optional.empty();
    }

    private static Map<String, String> notes(Sheet.Row row, List<String> columns) {
        var notes = new LinkedHashMap<String, String>();
        for (var column : columns) {
            row.cell(column).filter(c -> !c.empty()).ifPresent(c -> notes.put(column, c.text()));
        }
        return notes;
    }
}
