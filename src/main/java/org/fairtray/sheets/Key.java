package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** Which tray gets what: a cover that gives nothing away, then the trays in walking order, then level by level. */
final class Key {
    private static final String NAME = "Key: keep closed";
    private static final double LINE = 7.4;
    private static final double HEADS = 10;
    private static final double CODE = 22;
    private static final double WHERE = 40;
    /** Columns narrower than this get lines twice as high, so that levels can be broken. */
    private static final double NARROW = 22;

    private final Desk desk;
    private final Trial trial;

    private Key(Desk desk) {
        this.desk = desk;
        trial = desk.trial();
    }

    static List<Page> of(Desk desk) {
        var key = new Key(desk);
        var pages = new ArrayList<Page>();
        pages.add(key.cover());
        pages.addAll(key.table());
        pages.addAll(key.levels());
        return pages;
    }

    private Page cover() {
        var page = desk.blank();
        var area = desk.area();
        page.outline(area);
        page.write(line(40, 22), "KEY", Style.plain(54).heavy().middle());
        page.write(
                line(68, 16),
                "Keep closed until counting is done.",
                Style.plain(24).heavy().middle());
        page.write(line(92, 22), trial.title(), Style.plain(18).middle());
        page.write(
                line(122, 20),
                "For the one who sows and lays on weights. Whoever counts must not see what a tray got:"
                        + " knowing it changes what one counts.",
                Style.plain(13).middle());
        page.write(
                line(150, 12),
                "Closed after sowing: date ______________ by ______________________",
                Style.plain(12).middle());
        page.write(
                line(166, 12),
                "Opened after counting: date ______________ by ______________________",
                Style.plain(12).middle());
        return page.page();
    }

    private Box line(double down, double height) {
        var area = desk.area();
        return new Box(area.left() + 8, area.top() + down, area.width() - 16, height);
    }

    private List<String> heads() {
        var heads = new ArrayList<String>();
        trial.batches().forEach(b -> heads.add(b.name()));
        trial.factors()
                .forEach(f ->
                        heads.add(f.name() + f.unit().map(u -> " (" + u + ")").orElse("")));
        return heads;
    }

    private List<String> cells(Tray tray) {
        var cells = new ArrayList<String>();
        trial.batches().forEach(b -> cells.add(String.valueOf(tray.batches().get(b.name()))));
        trial.factors().forEach(f -> cells.add(tray.treatment().level(f.name())));
        return cells;
    }

    private List<Page> table() {
        var whole = desk.area();
        var area = new Box(whole.left(), whole.top() + HEADS, whole.width(), whole.height() - HEADS);
        double width = (area.width() - CODE - WHERE) / heads().size();
        double height = width < NARROW ? 2 * LINE : LINE;
        var flow = new Flow(desk.face(), area, () -> {
            var page = desk.headed(NAME);
            drawCells(page, new Box(area.left(), whole.top(), area.width(), HEADS), "tray", "place", heads(), 10);
            page.rule(area.left(), area.top(), area.right());
            return page;
        });
        Tray before = null;
        for (var tray : desk.trays()) {
            var strip = flow.strip(height);
            if (before != null && Desk.apart(before, tray)) {
                flow.page().rule(strip.left(), strip.top(), strip.right());
            }
            drawCells(flow.page(), strip, tray.code(), desk.where(tray), cells(tray), 12);
            flow.page().line(strip.left(), strip.bottom(), strip.right(), strip.bottom());
            before = tray;
        }
        return flow.pages();
    }

    private static void drawCells(Canvas page, Box strip, String code, String where, List<String> cells, double size) {
        page.write(
                new Box(strip.left(), strip.top(), CODE, strip.height()).within(0.5),
                code,
                Style.plain(size).heavy());
        page.write(new Box(strip.left() + CODE, strip.top(), WHERE, strip.height()).within(0.5), where, Style.plain(9));
        double width = (strip.width() - CODE - WHERE) / cells.size();
        for (int i = 0; i < cells.size(); i++) {
            var cell = new Box(strip.left() + CODE + WHERE + i * width, strip.top(), width, strip.height());
            page.write(cell.within(0.5), cells.get(i), Style.plain(size));
        }
    }

    /** The same by level, for soaking, cutting mats and laying on weights in one go. */
    private List<Page> levels() {
        var flow = desk.flow(NAME);
        flow.paragraph("The same, one thing at a time", Style.plain(13).heavy(), 0);
        for (var factor : trial.factors()) {
            var units = units(factor);
            factor.levels().forEach(level -> {
                var names = units.getOrDefault(level, Set.of());
                flow.heading(
                        factor.name() + " " + factor.describe(level) + ": " + names.size() + " × " + unit(factor), 11);
                flow.paragraph(names.isEmpty() ? "none" : String.join("   ", names), Style.plain(10.5), 4);
            });
        }
        return flow.pages();
    }

    private String unit(Factor factor) {
        return trial.appliedLevel(factor);
    }

    /** The codes of single trays, or the names of whole units, that get each level. */
    private Map<String, Set<String>> units(Factor factor) {
        var level = unit(factor);
        return desk.trays().stream()
                .collect(Collectors.groupingBy(
                        t -> t.treatment().level(factor.name()),
                        LinkedHashMap::new,
                        Collectors.mapping(
                                t -> level.equals(Place.TRAY) ? t.code() : where(level, t),
                                Collectors.toCollection(LinkedHashSet::new))));
    }

    private String where(String level, Tray tray) {
        return trial.place().key(level).stream()
                        .map(i -> Desk.unit(
                                trial.place().levels().get(i).name(),
                                tray.stand().at().get(i)))
                        .collect(Collectors.joining(", "))
                + ";";
    }
}
