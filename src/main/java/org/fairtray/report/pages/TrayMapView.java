package org.fairtray.report.pages;

import java.util.List;

/**
 * The trays as they stood.
 *
 * @param reading how to read it, sentence by sentence
 * @param grids one for each outermost unit
 */
public record TrayMapView(List<String> reading, List<Grid> grids) {

    /**
     * One unit's trays.
     *
     * @param caption which unit it is
     * @param columns heads from left to right; none where places don't form columns
     */
    public record Grid(String caption, List<String> columns, List<GridRow> rows) {}

    /** Places beside each other. */
    public record GridRow(String head, List<Cell> cells) {}

    /**
     * One place.
     *
     * @param kind tray, unread or empty
     * @param code the tray's label
     * @param treatment what it got, in brief
     * @param value what was read
     * @param shade from 0, light, to 4
     */
    public record Cell(String kind, String code, String treatment, String value, int shade) {}
}
