package org.fairtray.sheets.paper;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * One side of paper.
 *
 * @param marks in the order in which they are drawn
 */
public record Page(Paper paper, List<Mark> marks) {
    public Page {
        marks = List.copyOf(marks);
    }

    /** The same page with more on it. */
    public Page with(List<Mark> more) {
        var all = new ArrayList<>(marks);
        all.addAll(more);
        return new Page(paper, all);
    }

    /** The lines of words on it. */
    public Stream<String> words() {
        return marks.stream()
                .filter(Mark.Words.class::isInstance)
                .map(Mark.Words.class::cast)
                .map(Mark.Words::text);
    }
}
