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
    private static final int SHORT = 8;

    /**
     * One column.
     *
     * @param number whether its cells are numbers, which stand to the right
     */
    public record Column(String head, boolean number) {}

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
