package org.fairtray.sheets.paper;

/** The paper that sheets are printed on, upright. */
public enum Paper {
    /** ISO 216. */
    A4(210, 297),
    /** 8.5 by 11 inches. */
    LETTER(215.9, 279.4);

    private final double width;
    private final double height;

    Paper(double width, double height) {
        this.width = width;
        this.height = height;
    }

    /** Width in millimetres. */
    public double width() {
        return width;
    }

    /** Height in millimetres. */
    public double height() {
        return height;
    }
}
