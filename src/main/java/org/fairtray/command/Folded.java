package org.fairtray.command;

import java.util.ArrayList;
import java.util.List;

/** A sentence on lines of a width. */
final class Folded {
    private Folded() {}

    /** Lines of at most so many letters, broken between words; a longer word has a line of its own. */
    static List<String> at(int width, String sentence) {
        var lines = new ArrayList<String>();
        var line = new StringBuilder();
        for (String word : sentence.split(" ", -1)) {
            if (line.length() > 0 && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() > 0 ? " " : "").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
