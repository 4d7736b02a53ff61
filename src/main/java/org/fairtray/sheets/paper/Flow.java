package org.fairtray.sheets.paper;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;

/** Text that runs down the columns of a page, one after the other, and on to the next page. */
public final class Flow {
    private final Typeface face;
    private final List<Box> columns;
    private final Supplier<Canvas> fresh;
    private final List<Canvas> pages = new ArrayList<>();
    private Canvas page;
    private int column;
    private Box area;
    private double top;

    /** @param area where text may stand, in one column, the same on every page */
    public Flow(Typeface face, Box area, Supplier<Canvas> fresh) {
        this(face, List.of(area), fresh);
    }

    /**
     * @param columns where text may stand, in this order, the same on every page
     * @param fresh gives an empty page, with whatever stands outside the columns on it
     */
    public Flow(Typeface face, List<Box> columns, Supplier<Canvas> fresh) {
        this.face = face;
        this.columns = List.copyOf(columns);
        this.fresh = fresh;
        column = columns.size() - 1;
        turn();
    }

    private void turn() {
        column = (column + 1) % columns.size();
        if (column == 0) {
            page = fresh.get();
            pages.add(page);
        }
        area = columns.get(column);
        top = area.top();
    }

    /** The pages filled so far. */
    public List<Page> pages() {
        return pages.stream().map(Canvas::page).toList();
    }

    /** The page that is being filled. */
    public Canvas page() {
        return page;
    }

    /** A strip over the whole width, in the next column where this one has no room for it. */
    public Box strip(double height) {
        if (top + height > area.bottom() && top > area.top()) {
            turn();
        }
        var strip = new Box(area.left(), top, area.width(), height);
        top += height;
        return strip;
    }

    /** The height of what text may fill in a column, mm. */
    public double roomInColumn() {
        return area.height();
    }

    /** Goes on to the next column unless so much room is left in this one. */
    public void keep(double height) {
        if (top + height > area.bottom() && top > area.top()) {
            turn();
        }
    }

    /** Leaves room, except at the top of a column. */
    public void gap(double height) {
        if (top > area.top()) {
            top += height;
        }
    }

    /** A heading with a line above it, kept with what follows. */
    public void heading(String text, double size) {
        gap(2.5);
        keep(size * Fit.POINT * Fit.LINE * 3 + 4);
        paragraph(text, new Style(size, true, false, true), 0);
    }

    /** Lines of one size. */
    public void paragraph(String text, Style style, double indent) {
        double height = style.largest() * Fit.LINE * Fit.POINT;
        for (var line : Fit.flowing(face, face.shown(text), area.width() - indent, style.largest())
                .lines()) {
            var strip = strip(height);
            // A hair of width more, so that rounding never makes a line shrink that was broken to fit.
            page.write(
                    new Box(strip.left() + indent, strip.top(), strip.width() - indent + 0.01, height + 0.01),
                    line,
                    style);
        }
    }

    /** Something to do, with a box to tick before it. */
    public void task(String text, double size) {
        gap(1);
        double tick = size * Fit.POINT * 0.95;
        keep(2 * size * Fit.POINT * Fit.LINE);
        page.outline(new Box(area.left(), top + 0.1 * tick, tick, tick));
        paragraph(text, Style.plain(size), tick + 2);
    }
}
