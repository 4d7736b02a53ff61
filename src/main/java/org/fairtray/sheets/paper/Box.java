package org.fairtray.sheets.paper;

/**
 * A rectangle on a page, in millimetres.
 *
 * @param left from the left edge of the paper
 * @param top from the upper edge of the paper
 * @param width 0 or more
 * @param height 0 or more
 */
public record Box(double left, double top, double width, double height) {

    /** Where it ends on the right. */
    public double right() {
        return left + width;
    }

    /** Where it ends below. */
    public double bottom() {
        return top + height;
    }

    /** The same box, smaller on every side. */
    public Box within(double margin) {
        return new Box(left + margin, top + margin, width - 2 * margin, height - 2 * margin);
    }
}
