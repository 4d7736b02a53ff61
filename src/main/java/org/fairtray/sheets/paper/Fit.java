package org.fairtray.sheets.paper;

import java.util.ArrayList;
import java.util.List;

/**
 * Words broken into lines so that they stay inside a box: as large as asked for if that fits, else smaller, and where
 * even the smallest letters are too many, cut with an ellipsis. A word is broken only where shrinking to
 * {@link #LEAST_SHARE} of the size doesn't help.
 *
 * @param size in points
 */
public record Fit(List<String> lines, double size) {
    /** Millimetres in a point. */
    static final double POINT = 25.4 / 72;

    /** From one baseline to the next, in sizes. */
    static final double LINE = 1.18;

    private static final double STEP = 0.94;
    private static final double LEAST_SHARE = 0.5;
    private static final double SMALLEST = 4;

    public Fit {
        lines = List.copyOf(lines);
    }

    /** The height of all lines, mm. */
    double height() {
        return lines.size() * size * LINE * POINT;
    }

    /** Fits a text that can be shown into a width and height in millimetres. */
    static Fit of(Typeface face, String shown, double width, double height, double largest) {
        for (double size = largest; size >= Math.max(SMALLEST, largest * LEAST_SHARE); size *= STEP) {
            var lines = wrap(face, shown, width / POINT / size);
            var fit = new Fit(lines.lines, size);
            if (!lines.brokenWord && fit.height() <= height) {
                return fit;
            }
        }
        for (double size = largest; size > SMALLEST; size *= STEP) {
            var fit = new Fit(wrap(face, shown, width / POINT / size).lines, size);
            if (fit.height() <= height) {
                return fit;
            }
        }
        return cut(face, shown, width, height);
    }

    /** Lines of a fixed size, as many as there are. */
    static Fit flowing(Typeface face, String shown, double width, double size) {
        return new Fit(wrap(face, shown, width / POINT / size).lines, size);
    }

    private static Fit cut(Typeface face, String shown, double width, double height) {
        var lines = wrap(face, shown, width / POINT / SMALLEST).lines;
        int most = Math.max(1, (int) Math.floor(height / (SMALLEST * LINE * POINT)));
        if (lines.size() <= most) {
            return new Fit(lines, SMALLEST);
        }
        var kept = new ArrayList<>(lines.subList(0, most));
        var last = kept.get(most - 1);
        while (!last.isEmpty() && face.width(last + "…") * SMALLEST * POINT > width) {
            last = last.substring(0, last.offsetByCodePoints(last.length(), -1));
        }
        kept.set(most - 1, last + "…");
        return new Fit(kept, SMALLEST);
    }

    private record Wrapped(List<String> lines, boolean brokenWord) {}

    private static Wrapped wrap(Typeface face, String shown, double width) {
        var lines = new ArrayList<String>();
        boolean broken = false;
        var line = "";
        for (var word : shown.strip().split(" +", -1)) {
            var longer = line.isEmpty() ? word : line + " " + word;
            if (face.width(longer) <= width) {
                line = longer;
                continue;
            }
            if (!line.isEmpty()) {
                lines.add(line);
            }
            var rest = word;
            while (face.width(rest) > width && rest.codePointCount(0, rest.length()) > 1) {
                int end = fitting(face, rest, width);
                lines.add(rest.substring(0, end));
                rest = rest.substring(end);
                broken = true;
            }
            line = rest;
        }
        lines.add(line);
        return new Wrapped(lines, broken);
    }

    /** How far a word goes into a line; one letter at least, so that something is always taken. */
    private static int fitting(Typeface face, String word, double width) {
        int end = word.offsetByCodePoints(0, 1);
        double used = face.width(word.substring(0, end));
        while (end < word.length()) {
            int next = word.offsetByCodePoints(end, 1);
            used += face.width(word.substring(end, next));
            if (used > width) {
                return end;
            }
            end = next;
        }
        return end;
    }
}
