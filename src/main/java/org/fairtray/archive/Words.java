package org.fairtray.archive;

import java.text.Normalizer;
import java.util.Locale;

/** Text on its way into a database, and how it is searched for. */
final class Words {
    /** An index of PostgreSQL takes 2,700 bytes; so many letters fit, whatever they are. */
    private static final int LONGEST_SOUGHT = 500;

    private static final char REPLACEMENT = '\ufffd';

    private Words() {}

    /** Text that both databases keep as it is: a NUL, or half a character, becomes the sign for a character lost. */
    static String storable(String text) {
        if (text.indexOf('\0') < 0 && text.chars().noneMatch(c -> Character.isSurrogate((char) c))) {
            return text;
        }
        var kept = new StringBuilder();
        text.codePoints().forEach(c -> kept.appendCodePoint(isLost(c) ? REPLACEMENT : c));
        return kept.toString();
    }

    private static boolean isLost(int character) {
        return character == 0 || (character >= Character.MIN_SURROGATE && character <= Character.MAX_SURROGATE);
    }

    /** What a search looks at: small letters, one way to write each letter, single spaces, not more than an index takes. */
    static String sought(String text) {
        var plain = Normalizer.normalize(storable(text), Normalizer.Form.NFKC)
                .toLowerCase(Locale.ROOT)
                .replaceAll("\\s+", " ")
                .strip();
        boolean fits = plain.codePointCount(0, plain.length()) <= LONGEST_SOUGHT;
        return fits ? plain : plain.substring(0, plain.offsetByCodePoints(0, LONGEST_SOUGHT));
    }

    /** A pattern for {@code like ... escape '!'} that finds the words anywhere, each of their letters for itself. */
    static String anywhere(String words) {
        return "%" + sought(words).replaceAll("[!%_]", "!$0") + "%";
    }
}
