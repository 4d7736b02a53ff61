package org.fairtray.report.pages;

import java.util.List;

/**
 * A table whose first column names its rows.
 *
 * @param id unique on the page
 * @param caption what it holds
 * @param reading how to read it, in a sentence
 * @param columns the heads
 * @param rows as many cells each as there are columns
 */
public record Table(String id, String caption, String reading, List<Column> columns, List<List<String>> rows) {
    private static final int SHORT = 16;

    /** What a column's cells are: numbers stand to the right, sentences get room. */
    public enum Kind {
        NUMBER("n"),
        TEXT("t"),
        SENTENCE("w");

        private final String style;

        Kind(String style) {
            this.style = style;
        }

        /** Its name in the style sheet. */
        public String style() {
            return style;
        }
    }

    /** One column. */
    public record Column(String head, Kind kind) {
        /** Of numbers, with their units at its head. */
        public static Column number(String head) {
            return new Column(head, Kind.NUMBER);
        }

        /** Of names or a few words. */
        public static Column text(String head) {
            return new Column(head, Kind.TEXT);
        }

        /** Of whole sentences. */
        public static Column sentence(String head) {
            return new Column(head, Kind.SENTENCE);
        }
    }

    /** @throws IllegalArgumentException if a row has too few or too many cells */
    public Table {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
        for (var row : rows) {
            if (row.size() != columns.size()) {
                throw new IllegalArgumentException(
                        "table '" + caption + "': " + row.size() + " cells, expected " + columns.size());
            }
        }
    }

    /** Whether it is long enough to be folded away on a screen. */
    public boolean isLong() {
        return rows.size() > SHORT;
    }
}
