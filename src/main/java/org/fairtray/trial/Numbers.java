package org.fairtray.trial;

import java.util.regex.Pattern;

/** Whether a level's text is a plain decimal number. */
public final class Numbers {
    private static final Pattern DECIMAL = Pattern.compile("[-+]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][-+]?\\d{1,2})?");

    private Numbers() {}

    /** Whether it is one. */
    public static boolean isNumber(String text) {
        return DECIMAL.matcher(text).matches();
    }
}
