package org.fairtray.archive;

import java.util.Locale;
import java.util.regex.Pattern;

/** What a shared trial is called by: 64 letters, or the first of them. */
final class Id {
    static final int FEWEST = 6;

    private static final Pattern WHOLE = Pattern.compile("[0-9a-f]{64}");
    private static final Pattern BEGINNING = Pattern.compile("[0-9a-f]{" + FEWEST + ",64}");

    private Id() {}

    static boolean isWhole(String id) {
        return WHOLE.matcher(id).matches();
    }

    static boolean isBeginning(String typed) {
        return BEGINNING.matcher(typed).matches();
    }

    /** As typed, or copied from elsewhere. */
    static String tidy(String typed) {
        return typed.strip().toLowerCase(Locale.ROOT);
    }

    /** Behind all ids that begin so. */
    static String behind(String beginning) {
        return beginning + "g";
    }
}
