package org.fairtray.sheets.paper;

/** One thing on a page. Everything is black on white. */
public sealed interface Mark {

    /**
     * A line of words.
     *
     * @param left where it begins, mm
     * @param baseline where letters stand, mm from the upper edge
     * @param text only letters that the typeface has
     * @param size in points
     */
    record Words(double left, double baseline, String text, double size, boolean bold) implements Mark {}

    /** A straight line of a thickness in millimetres. */
    record Line(double fromLeft, double fromTop, double toLeft, double toTop, double thickness) implements Mark {}

    /** The outline of a box. */
    record Outline(Box box, double thickness) implements Mark {}

    /** A square code for a camera, as large as its box. */
    record CameraCode(Box box, String content) implements Mark {}
}
