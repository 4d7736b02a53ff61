package org.fairtray.report.charts;

import java.util.Locale;

/**
 * Makes visible what must not act unseen. Control characters are not allowed in XML, and characters that turn the
 * direction of writing could make a name read as another; both are shown by their number instead.
 */
public final class Visible {
    private Visible() {}

    /** The text with every hidden or forbidden character written out, such as "⟨U+202E⟩". Tabs and line ends stay. */
    public static String text(String text) {
        if (text.codePoints().noneMatch(Visible::hidden)) {
            return text;
        }
        var shown = new StringBuilder(text.length() + 16);
        text.codePoints().forEach(c -> {
            if (hidden(c)) {
                shown.append(String.format(Locale.ROOT, "⟨U+%04X⟩", c));
            } else {
                shown.appendCodePoint(c);
            }
        });
        return shown.toString();
    }

    private static boolean hidden(int c) {
        boolean control = (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || (c >= 0x7f && c < 0xa0);
        boolean turning = (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
        boolean halfACharacter = c >= 0xd800 && c <= 0xdfff;
        boolean noCharacter = (c & 0xfffe) == 0xfffe;
        return control || turning || halfACharacter || noCharacter;
    }
}
