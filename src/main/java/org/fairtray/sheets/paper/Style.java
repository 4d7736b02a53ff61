package org.fairtray.sheets.paper;

/**
 * How words are set into a box.
 *
 * @param largest size in points; smaller where they wouldn't fit
 */
public record Style(double largest, boolean bold, boolean centred, boolean atTop) {

    /** From the left, in the middle of the height. */
    public static Style plain(double largest) {
        return new Style(largest, false, false, false);
    }

    /** Heavier letters. */
    public Style heavy() {
        return new Style(largest, true, centred, atTop);
    }

    /** In the middle of the width. */
    public Style middle() {
        return new Style(largest, bold, true, atTop);
    }

    /** From the top of the box. */
    public Style top() {
        return new Style(largest, bold, centred, true);
    }
}
