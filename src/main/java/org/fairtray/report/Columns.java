package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Plain text for a terminal: sentences and tables no wider than {@value #WIDTH} letters, unless a single word is. */
final class Columns {
    static final int WIDTH = 80;

    /** Names longer than this stand on a line of their own. */
    private static final int NAME = 26;

    private static final String GAP = "  ";

    private Columns() {}

    /** A text broken between words; the first line begins with one indent, the lines after it with another. */
    static List<String> wrap(String text, String first, String indent) {
        var lines = new ArrayList<String>();
        var line = new StringBuilder(first);
        for (String word : text.split(" ", -1)) {
            boolean begins = line.toString().isBlank();
            if (!begins && line.length() + 1 + word.length() > WIDTH) {
                lines.add(line.toString());
                line.setLength(0);
                line.append(indent).append(word);
            } else {
                line.append(begins ? "" : " ").append(word);
            }
        }
        lines.add(line.toString());
        return lines;
    }

    /**
     * A table whose first column is names.
     *
     * @param heads of the columns; the lines of one are divided by a line break
     * @param rows as many cells each
     */
    static List<String> table(List<String> heads, List<List<String>> rows) {
        int[] widths = IntStream.range(0, heads.size())
                .map(c -> Math.max(
                        heads.get(c).lines().mapToInt(String::length).max().orElse(0),
                        rows.stream()
                                .mapToInt(r -> r.get(c).length())
                                .filter(w -> c > 0 || w <= NAME)
                                .max()
                                .orElse(0)))
                .toArray();
        var lines = new ArrayList<String>();
        int deep = heads.stream().mapToInt(h -> (int) h.lines().count()).max().orElse(1);
        for (int i = 0; i < deep; i++) {
            int at = i;
            lines.add(line(
                    heads.stream()
                            .map(h -> {
                                var parts = h.lines().toList();
                                int part = at - (deep - parts.size());
                                return part < 0 || parts.isEmpty() ? "" : parts.get(part);
                            })
                            .toList(),
                    widths));
        }
        for (var row : rows) {
            if (row.get(0).length() > widths[0]) {
                lines.add(GAP + row.get(0));
                var rest = new ArrayList<>(row);
                rest.set(0, "");
                lines.add(line(rest, widths));
            } else {
                lines.add(line(row, widths));
            }
        }
        return lines;
    }

    private static String line(List<String> cells, int[] widths) {
        var line = new StringBuilder();
        for (int c = 0; c < cells.size(); c++) {
            line.append(GAP);
            String pad = " ".repeat(widths[c] - cells.get(c).length());
            line.append(c == 0 ? cells.get(c) + pad : pad + cells.get(c));
        }
        return line.toString().stripTrailing();
    }
}
