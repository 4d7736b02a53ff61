package org.fairtray.sheets.paper;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;

/** Text that runs from the top of a page to its end and on to the next. */
public final class Flow {
    private final Typeface face;
    private final Box area;
    private final Supplier<Canvas> fresh;
    private final List<Canvas> pages = new ArrayList<>();
    private Canvas page;
    private double top;

    /**
     * @param area where text may stand, the same on every page
     * @param fresh gives an empty page, with whatever stands outside the area on it
     */
    public Flow(Typeface face, Box area, Supplier<Canvas> fresh) {
        this.face = face;
        this.area = area;
        this.fresh = fresh;
        turn();
    }

    private void turn() {
        page = fresh.get();
        pages.add(page);
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

    /** A strip over the whole width, on the next page where this one has no room for it. */
    public Box strip(double height) {
        if (top + height > area.bottom() && top > area.top()) {
            turn();
        }
        var strip = new Box(area.left(), top, area.width(), height);
        top += height;
        return strip;
    }

    /** The height of what text may fill on a page, mm. */
    public double roomOnPage() {
        return area.height();
    }

    /** Turns the page unless so much room is left on it. */
    public void keep(double height) {
        if (top + height > area.bottom() && top > area.top()) {
            turn();
        }
    }

    /** Leaves room, except at the top of a page. */
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
