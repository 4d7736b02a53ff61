package org.fairtray.files;

import java.util.Collection;
import java.util.stream.Collectors;

/** How messages show what stands in a file, each in one line and of bearable length. */
final class Wording {
    private static final int LONGEST_QUOTE = 60;
    private static final int LONGEST_LIST = 24;

    private Wording() {}

    /** A grower's text in quotes, shortened. */
    static String quote(String text) {
        boolean fits = text.codePointCount(0, text.length()) <= LONGEST_QUOTE;
        var shown = fits ? text : text.substring(0, text.offsetByCodePoints(0, LONGEST_QUOTE)) + "…";
        return "'" + visible(shown) + "'";
    }

    /** Text with its control characters written out, so that a message stays one line. */
    static String visible(String text) {
        return text.codePoints().mapToObj(Wording::visible).collect(Collectors.joining());
    }

    private static String visible(int character) {
        return switch (character) {
            case '\n' -> "\\n";
            case '\r' -> "\\r";
            case '\t' -> "\\t";
            default ->
                Character.isISOControl(character) ? String.format("\\u%04x", character) : Character.toString(character);
        };
    }

    /** "one of a, b, c", or "a" alone; long lists are cut. */
    static String oneOf(Collection<String> known) {
        if (known.isEmpty()) {
            return "none";
        }
        return (known.size() == 1 ? "" : "one of ") + list(known);
    }

    /** "a, b, c"; long lists are cut. */
    static String list(Collection<String> words) {
        var shown = words.stream().limit(LONGEST_LIST).map(Wording::visible).collect(Collectors.joining(", "));
        int more = words.size() - LONGEST_LIST;
        return shown + (more > 0 ? " and " + more + " more" : "");
    }
}
