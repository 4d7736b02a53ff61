package org.fairtray.sheets;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.sheets.paper.Style;
import org.fairtray.sheets.paper.Typeface;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** What every sheet of a trial is made with: the trays in walking order, the paper, heads and feet of pages. */
final class Desk {
    private static final double SIDE = 12;
    private static final double HEAD = 10;
    private static final double TOP = 23;
    private static final double FOOT = 17;
    /** Letters; longer names of place levels are cut where a number follows them. */
    private static final int LONGEST_LEVEL = 24;

    private final Trial trial;
    private final List<Tray> trays;
    private final Handling handling;
    private final Printing printing;
    private final Typeface face;

    Desk(Trial trial, Layout layout, Handling handling, Printing printing, Typeface face) {
        this.trial = trial;
        this.trays = Layout.walked(layout.trays());
        this.handling = handling;
        this.printing = printing;
        this.face = face;
    }

    Trial trial() {
        return trial;
    }

    Place place() {
        return trial.place();
    }

    /** As they stand at sowing, in walking order: outermost place level first. */
    List<Tray> trays() {
        return trays;
    }

    /** As they stand on a day, after the moves of that day, in the walking order of that day. */
    List<Tray> trays(int day) {
        return Layout.walked(handling.on(day, trays));
    }

    Handling handling() {
        return handling;
    }

    Printing printing() {
        return printing;
    }

    Typeface face() {
        return face;
    }

    /** An empty page. */
    Canvas blank() {
        return new Canvas(printing.paper(), face);
    }

    /** A page with its name and the trial's on it. */
    Canvas headed(String name) {
        var page = blank();
        var area = area();
        double half = area.width() * 0.5;
        page.write(
                new Box(area.left(), HEAD, half - 4, 10), name, Style.plain(17).heavy());
        page.write(new Box(area.left() + half, HEAD, half, 10), trial.title(), Style.plain(10));
        page.rule(area.left(), HEAD + 11, area.right());
        return page;
    }

    /** Text under such heads. */
    Flow flow(String name) {
        return new Flow(face, area(), () -> headed(name));
    }

    /** Columns of a page, side by side under a head, with some room between them. */
    List<Box> columns(int number, double between, double head) {
        var area = area();
        double width = (area.width() - (number - 1) * between) / number;
        return IntStream.range(0, number)
                .mapToObj(i ->
                        new Box(area.left() + i * (width + between), area.top() + head, width, area.height() - head))
                .toList();
    }

    /** Where the contents of a page stand, between its head and its foot. */
    Box area() {
        var paper = printing.paper();
        return new Box(SIDE, TOP, paper.width() - 2 * SIDE, paper.height() - TOP - FOOT);
    }

    /** The pages with their numbers, and a word on letters that couldn't be shown. */
    List<Page> numbered(List<Page> pages, int before, int all) {
        return IntStream.range(0, pages.size())
                .mapToObj(i -> withFoot(pages.get(i), before + i + 1, all))
                .toList();
    }

    private Page withFoot(Page page, int number, int all) {
        var foot = new Canvas(printing.paper(), face);
        var area = area();
        double top = page.paper().height() - FOOT + 3;
        foot.write(new Box(area.right() - 40, top, 40, 5), "page " + number + " of " + all, Style.plain(9));
        if (lacksLetters(page)) {
            foot.write(
                    new Box(area.left(), top, area.width() - 44, 5),
                    Typeface.MISSING + " stands for a letter that these sheets can’t show.",
                    Style.plain(9));
        }
        return page.with(foot.page().marks());
    }

    private static boolean lacksLetters(Page page) {
        return page.words().anyMatch(w -> w.contains(Typeface.MISSING));
    }

    /** Where a tray stands, such as "shelf 1, stack 2, layer 3". */
    String where(Tray tray) {
        return where(tray.stand().at());
    }

    /** The units that the first numbers of a stand name. */
    String where(List<Integer> at) {
        return IntStream.range(0, at.size())
                .mapToObj(i -> unit(place().levels().get(i).name(), at.get(i)))
                .collect(Collectors.joining(", "));
    }

    /** One unit by its number, which must be seen however long the level's name is. */
    static String unit(String level, int number) {
        return unit(level, number, LONGEST_LEVEL);
    }

    /** The same where there is room for fewer letters of the name. */
    static String unit(String level, int number, int most) {
        int letters = level.codePointCount(0, level.length());
        var name = letters <= most ? level : level.substring(0, level.offsetByCodePoints(0, most - 1)) + "…";
        return name + " " + number;
    }

    /** Whether two trays stand in different units of the level before the last. */
    static boolean apart(Tray one, Tray other) {
        int outer = one.stand().at().size() - 1;
        return !one.stand().at().subList(0, outer).equals(other.stand().at().subList(0, outer));
    }

    Paper paper() {
        return printing.paper();
    }
}
