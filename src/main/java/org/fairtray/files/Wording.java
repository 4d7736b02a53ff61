package org.fairtray.files;

import java.util.Collection;
import java.util.Locale;
import java.util.stream.Collectors;

/** How messages show what stands in a file, each in one line and of bearable length. */
public final class Wording {
    private static final int LONGEST_QUOTE = 60;
    private static final int LONGEST_LIST = 24;

    private Wording() {}

    /** A grower's text in quotes, shortened. */
    public static String quote(String text) {
        boolean fits = text.codePointCount(0, text.length()) <= LONGEST_QUOTE;
        var shown = fits ? text : text.substring(0, text.offsetByCodePoints(0, LONGEST_QUOTE)) + "…";
        return "'" + visible(shown) + "'";
    }

    /**
     * Text with its control characters written out, so that a message stays one line, and with what turns the direction
     * of writing, so that no name reads as another.
     */
    public static String visible(String text) {
        return text.codePoints().mapToObj(Wording::visible).collect(Collectors.joining());
    }

    private static String visible(int character) {
        return switch (character) {
            case '\n' -> "\\n";
            case '\r' -> "\\r";
            case '\t' -> "\\t";
            default ->
                hidden(character) ? String.format(Locale.ROOT, "\\u%04x", character) : Character.toString(character);
        };
    }

    private static boolean hidden(int character) {
        boolean turning = (character >= 0x202a && character <= 0x202e) || (character >= 0x2066 && character <= 0x2069);
        boolean newLine = character == 0x2028 || character == 0x2029;
        boolean halfACharacter = character >= 0xd800 && character <= 0xdfff;
        return Character.isISOControl(character) || turning || newLine || halfACharacter;
    }

    /** "one of a, b, c", or "a" alone; long lists are cut. */
    static String oneOf(Collection<String> known) {
        if (known.isEmpty()) {
            return "none";
        }
        return (known.size() == 1 ? "" : "one of ") + list(known);
    }

    /** "a, b, c"; long lists are cut. */
    public static String list(Collection<String> words) {
        var shown = words.stream().limit(LONGEST_LIST).map(Wording::visible).collect(Collectors.joining(", "));
        int more = words.size() - LONGEST_LIST;
        return shown + (more > 0 ? " and " + more + " more" : "");
    }
}
