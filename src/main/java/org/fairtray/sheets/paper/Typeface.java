package org.fairtray.sheets.paper;

/** How wide words are, and which letters there are. */
public interface Typeface {
    /** What stands for a letter that the typeface doesn't have. */
    String MISSING = "□";

    /** The text with letters that can't be shown replaced by {@link #MISSING}. */
    String shown(String text);

    /** The width of one line at a size of 1 point, in points; of a text that can be shown. */
    double width(String shown);
}
