package org.fairtray.sheets.paper;

import java.util.ArrayList;
import java.util.List;

/** A page while it is being filled. Places are millimetres from the left and upper edges of the paper. */
public final class Canvas {
    /** How far the baseline lies below the top of a line, in sizes. */
    private static final double BASELINE = 0.93;

    private final Paper paper;
    private final Typeface face;
    private final List<Mark> marks = new ArrayList<>();

    public Canvas(Paper paper, Typeface face) {
        this.paper = paper;
        this.face = face;
    }

    /** What the page shows so far. */
    public Page page() {
        return new Page(paper, marks);
    }

    /** Writes words into a box: never outside it, smaller and in several lines where they are long. */
    public void write(Box box, String text, Style style) {
        if (text.isBlank() || box.width() <= 0) {
            return;
        }
        var fit = Fit.of(face, face.shown(text), box.width(), box.height(), style.largest());
        double top = style.atTop() ? box.top() : box.top() + Math.max(0, box.height() - fit.height()) / 2;
        for (var line : fit.lines()) {
            double width = face.width(line) * fit.size() * Fit.POINT;
            double left = style.centred() ? box.left() + Math.max(0, box.width() - width) / 2 : box.left();
            marks.add(new Mark.Words(left, top + BASELINE * fit.size() * Fit.POINT, line, fit.size(), style.bold()));
            top += fit.size() * Fit.LINE * Fit.POINT;
        }
    }

    /** A line on the paper, as thick as a pen's. */
    public void line(double fromLeft, double fromTop, double toLeft, double toTop) {
        marks.add(new Mark.Line(fromLeft, fromTop, toLeft, toTop, 0.2));
    }

    /** A heavy line across. */
    public void rule(double left, double top, double right) {
        marks.add(new Mark.Line(left, top, right, top, 0.6));
    }

    /** A heavy line downwards. */
    public void upright(double left, double top, double bottom) {
        marks.add(new Mark.Line(left, top, left, bottom, 0.6));
    }

    /** The outline of a box. */
    public void outline(Box box) {
        marks.add(new Mark.Outline(box, 0.25));
    }

    /** A square code for a camera. */
    public void cameraCode(Box box, String content) {
        marks.add(new Mark.CameraCode(box, content));
    }
}
