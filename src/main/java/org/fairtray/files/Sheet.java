package org.fairtray.files;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A CSV file as a table with named columns, whatever separator, line ends, byte-order mark and empty rows a spreadsheet
 * left in it.
 */
final class Sheet {
    private static final Pattern SEPARATOR_LINE = Pattern.compile("\"?sep=([,;|\\t])\"?\\s*", Pattern.CASE_INSENSITIVE);
    private static final Pattern DIGITS = Pattern.compile("\\d+");

    private final List<String> columns;
    private final int headerLine;
    private final List<Row> rows;
    private final char separator;
    private final Problems problems;

    private Sheet(List<String> columns, int headerLine, List<Row> rows, char separator, Problems problems) {
        this.columns = columns;
        this.headerLine = headerLine;
        this.rows = rows;
        this.separator = separator;
        this.problems = problems;
    }

    /** One row; its cells are asked for by column. */
    final class Row {
        private final int line;
        private final List<String> cells;

        private Row(int line, List<String> cells) {
            this.line = line;
            this.cells = cells;
        }

        int line() {
            return line;
        }

        /** The cell of a column, or empty where the file has no such column. */
        Optional<Cell> cell(String column) {
            int at = columns.indexOf(column);
            return at < 0
                    ? Optional.empty()
                    : Optional.of(new Cell(column, cells.get(at), line, separator != ',', problems));
        }
    }

    /** @throws ProblemsException if the file isn't a table at all; what is wrong with single rows is only noted */
    static Sheet read(StoredFile file, Problems problems) {
        var text = file.text();
        var first = text.lines().findFirst().orElse("");
        var said = SEPARATOR_LINE.matcher(first);
        boolean says = said.matches();
        var header = says ? text.lines().skip(1).findFirst().orElse("") : firstFilled(text);
        char separator = says ? said.group(1).charAt(0) : separator(header);
        Quotes.check(text, separator, problems);
        problems.throwIfAny();
        var records = records(text, separator, problems);
        if (says && !records.isEmpty()) {
            records.remove(0);
        }
        return table(records, separator, text, problems);
    }

    private static String firstFilled(String text) {
        return text.lines().filter(l -> !l.isBlank()).findFirst().orElse("");
    }

    /** The separator that the header has most of, outside quotes; a comma where it has none. */
    private static char separator(String header) {
        var bare = header.replaceAll("\"[^\"]*\"", "");
        char most = ',';
        for (char candidate : new char[] {';', '\t'}) {
            if (count(bare, candidate) > count(bare, most)) {
                most = candidate;
            }
        }
        return most;
    }

    private static long count(String text, char c) {
        return text.chars().filter(other -> other == c).count();
    }

    private static List<CsvRecord> records(String text, char separator, Problems problems) {
        var records = new ArrayList<CsvRecord>();
        try {
            CsvReader.builder().fieldSeparator(separator).ofCsvRecord(text).forEach(records::add);
        } catch (CsvParseException e) {
            problems.add(0, "a file that isn't a table (" + e.getMessage() + ")", "rows of cells");
            problems.throwIfAny();
        }
        records.removeIf(r -> r.getFields().stream().allMatch(cell -> trim(cell).isEmpty()));
        return records;
    }

    private static Sheet table(List<CsvRecord> records, char separator, String text, Problems problems) {
        if (records.isEmpty()) {
            problems.add(0, "an empty file", "a header with the names of the columns");
            problems.throwIfAny();
        }
        var columns = header(records.get(0), problems);
        var rows = new ArrayList<Row>();
        var sheet = new Sheet(columns, line(records.get(0)), rows, separator, problems);
        for (var row : records.subList(1, records.size())) {
            boolean last = row == records.get(records.size() - 1) && !text.endsWith("\n") && !text.endsWith("\r");
            sheet.cells(row, last).ifPresent(cells -> rows.add(sheet.new Row(line(row), cells)));
        }
        return sheet;
    }

    private static List<String> header(CsvRecord header, Problems problems) {
        var names = new ArrayList<>(trimmed(header));
        while (names.get(names.size() - 1).isEmpty()) {
            names.remove(names.size() - 1);
        }
        for (int i = 0; i < names.size(); i++) {
            if (names.get(i).isEmpty()) {
                problems.add(line(header), "no name for column " + (i + 1), "a name for every column");
            } else if (names.indexOf(names.get(i)) < i) {
                problems.add(line(header), "column " + Wording.quote(names.get(i)) + " twice", "each column once");
            }
        }
        return List.copyOf(names);
    }

    /** The cells of a row, one for each column; empty if there are too few or too many. */
    private Optional<List<String>> cells(CsvRecord row, boolean unfinished) {
        var cells = trimmed(row);
        int filled = cells.size();
        while (filled > columns.size() && cells.get(filled - 1).isEmpty()) {
            filled--;
        }
        if (filled == columns.size()) {
            return Optional.of(cells.subList(0, filled));
        }
        boolean few = filled < columns.size();
        var hint = !few && separator == ',' && numbersSideBySide(cells)
                ? "; a decimal comma separates cells here: write 1.5"
                : "";
        problems.add(
                line(row),
                (few && unfinished ? "an unfinished last line with " : "")
                        + filled
                        + (filled == 1 ? " cell" : " cells"),
                columns.size() + ", as in the header" + hint);
        return Optional.empty();
    }

    private static boolean numbersSideBySide(List<String> cells) {
        for (int i = 1; i < cells.size(); i++) {
            if (DIGITS.matcher(cells.get(i - 1)).matches()
                    && DIGITS.matcher(cells.get(i)).matches()) {
                return true;
            }
        }
        return false;
    }

    private static int line(CsvRecord row) {
        return (int) row.getStartingLineNumber();
    }

    private static List<String> trimmed(CsvRecord row) {
        return row.getFields().stream().map(cell -> Guard.takeOff(trim(cell))).toList();
    }

    /** Without spaces around it, non-breaking ones included. */
    static String trim(String text) {
        int start = 0;
        int end = text.length();
        while (start < end && isSpace(text.charAt(start))) {
            start++;
        }
        while (end > start && isSpace(text.charAt(end - 1))) {
            end--;
        }
        return text.substring(start, end);
    }

    private static boolean isSpace(char c) {
        return Character.isWhitespace(c) || Character.isSpaceChar(c);
    }

    List<Row> rows() {
        return rows;
    }

    List<String> columns() {
        return columns;
    }

    boolean has(String column) {
        return columns.contains(column);
    }

    /** The separator in words. */
    String separatedBy() {
        return switch (separator) {
            case ',' -> "commas";
            case ';' -> "semicolons";
            case '\t' -> "tabs";
            default -> Wording.quote(String.valueOf(separator));
        };
    }

    /** Reports every column that isn't one of these, and every one of these that isn't there. */
    void only(List<String> expected) {
        var meant = new ArrayList<String>();
        for (var column : columns) {
            if (!column.isEmpty() && !expected.contains(column)) {
                problems.unknown(headerLine, "column", column, expected);
                Nearest.to(column, expected).ifPresent(meant::add);
            }
        }
        expected.stream().filter(c -> !has(c) && !meant.contains(c)).forEach(c -> missing(c, Optional.empty()));
    }

    /** Reports every one of these that isn't there, with a column of a similar name that isn't a known one. */
    void atLeast(List<String> required, Collection<String> known) {
        var others = columns.stream().filter(c -> !known.contains(c)).toList();
        required.stream().filter(c -> !has(c)).forEach(c -> missing(c, Nearest.to(c, others)));
    }

    /** Reports every one of these columns that looks like a known one which is missing: it would be passed over. */
    void noneAlmost(List<String> others, Collection<String> known) {
        var absent = known.stream().filter(c -> !has(c)).toList();
        for (var column : others) {
            Nearest.almost(column, absent)
                    .ifPresent(name -> problems.add(
                            headerLine,
                            "column " + Wording.quote(column),
                            "a name less like " + name + ", unless that is meant",
                            Optional.of(name)));
        }
    }

    private void missing(String column, Optional<String> similar) {
        var instead = similar.map(s -> ", but " + Wording.quote(s)).orElse("");
        problems.add(headerLine, "no column " + Wording.quote(column) + instead, "a column named " + column);
    }

    /** Where the header is. */
    int headerLine() {
        return headerLine;
    }
}
