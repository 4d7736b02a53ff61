package org.fairtray.files;

import java.util.regex.Pattern;

/**
 * The apostrophe before a cell that a spreadsheet would take for a formula: text that begins with = + - @, a tab or a
 * line break and isn't a number. Adding it and taking it off again gives back any text exactly, one with apostrophes of
 * its own included.
 */
public final class Guard {
    private static final Pattern FORMULA = Pattern.compile("'*[=+\\-@\\t\\r\\n].*", Pattern.DOTALL);
    private static final Pattern NUMBER = Pattern.compile("[-+](\\d+([.,]\\d*)?|[.,]\\d+)([eE][-+]?\\d+)?");

    private Guard() {}

    /** The text as a cell. */
    public static String add(String text) {
        return FORMULA.matcher(text).matches() && !NUMBER.matcher(text).matches() ? "'" + text : text;
    }

    static String takeOff(String text) {
        return text.startsWith("'") && FORMULA.matcher(text).matches() ? text.substring(1) : text;
    }
}
