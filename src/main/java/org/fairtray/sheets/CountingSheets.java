package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.stream.Collectors;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** What is filled in with a pencil on one counting day: a line for each tray in the walking order of that day, no
 * treatment on it. */
final class CountingSheets {
    static final String NAME = "Counting sheets";
    private static final String SOWN = "sown";

    private static final double CODE = 22;
    private static final double WHERE = 32;
    private static final double FRAME = 15;
    private static final double NOTES = 27;
    private static final double NARROWEST_BOX = 12.5;
    private static final double WIDEST_BOX = 22;
    private static final double LINE = 8.4;
    private static final double FIELDS = 9;
    private static final double DEFINITIONS = 9;
    private static final double COLUMN_HEADS = 12;

    private final Desk desk;
    private final int day;
    private final List<String> columns;
    /** Seeds sown are seldom written; where their boxes would take a line for each frame, they go under note. */
    private final boolean sownAsNote;

    private final Box area;
    private final boolean frameByFrame;
    private final Flow flow;

    private CountingSheets(Desk desk, int day) {
        this.desk = desk;
        this.day = day;
        var wanted = columns(desk.trial(), day);
        var withoutSown = wanted.stream().filter(c -> !c.equals(SOWN)).toList();
        boolean sownIsTooMuch = needsLines(wanted) && !needsLines(withoutSown);
        columns = sownIsTooMuch ? withoutSown : wanted;
        sownAsNote = sownIsTooMuch;
        var whole = desk.area();
        double above = FIELDS + DEFINITIONS + COLUMN_HEADS;
        area = new Box(whole.left(), whole.top() + above, whole.width(), whole.height() - above);
        frameByFrame = needsLines(columns);
        flow = new Flow(desk.face(), area, this::page);
    }

    /** Whether these columns of all frames have no room side by side. */
    private boolean needsLines(List<String> of) {
        int frames = desk.trial().counting().framesPerTray();
        return frames > 1 && boxesWidth(false) / (frames * (double) of.size()) < NARROWEST_BOX;
    }

    /** The name of the sheets of one day. */
    static String name(int day) {
        return "Count on day " + day;
    }

    static List<Page> of(Desk desk, int day) {
        var sheets = new CountingSheets(desk, day);
        sheets.draw();
        return sheets.flow.pages();
    }

    /**
     * The columns of readings.csv that are filled in on a day: counts on every day, measures on their own; seeds sown
     * once, on the first, since they hold for all days.
     */
    static List<String> columns(Trial trial, int day) {
        var columns = new LinkedHashSet<String>();
        var counts = new LinkedHashSet<String>();
        for (Outcome outcome : trial.outcomes()) {
            outcome.match(
                    count -> {
                        if (!count.of().equals(SOWN)) {
                            counts.add(count.of());
                        }
                        return counts.add(count.name());
                    },
                    measure -> false);
        }
        if (!counts.isEmpty() && day == trial.counting().days().get(0)) {
            columns.add(SOWN);
        }
        List.of("germinated", "through").stream().filter(counts::contains).forEach(columns::add);
        columns.addAll(counts);
        trial.outcomes().stream()
                .filter(o -> o.match(count -> false, measure -> measure.day() == day))
                .forEach(o -> columns.add(o.name()));
        return List.copyOf(columns);
    }

    private double boxesWidth(boolean withFrameColumn) {
        return desk.area().width() - CODE - WHERE - NOTES - (withFrameColumn ? FRAME : 0);
    }

    private int framesInLine() {
        return frameByFrame ? 1 : desk.trial().counting().framesPerTray();
    }

    private double boxesLeft() {
        return area.left() + CODE + WHERE + (frameByFrame ? FRAME : 0);
    }

    private double boxWidth() {
        return Math.min(WIDEST_BOX, boxesWidth(frameByFrame) / (framesInLine() * Math.max(1, columns.size())));
    }

    private double notesLeft() {
        return boxesLeft() + framesInLine() * columns.size() * boxWidth();
    }

    private Canvas page() {
        var page = desk.headed(name(day));
        var whole = desk.area();
        var fields = new Box(whole.left(), whole.top(), whole.width(), FIELDS - 2);
        drawField(page, fields, 0, 0.3, "Date");
        drawField(page, fields, 0.32, 0.22, "Time");
        drawField(page, fields, 0.56, 0.44, "Counted by");
        page.write(
                new Box(whole.left(), whole.top() + FIELDS, whole.width(), DEFINITIONS - 1), rules(), Style.plain(9));
        double heads = whole.top() + FIELDS + DEFINITIONS;
        drawHead(page, new Box(area.left(), heads, CODE, COLUMN_HEADS), "tray");
        drawHead(page, new Box(area.left() + CODE, heads, WHERE, COLUMN_HEADS), "place");
        if (frameByFrame) {
            drawHead(page, new Box(area.left() + CODE + WHERE, heads, FRAME, COLUMN_HEADS), "frame");
        }
        drawBoxHeads(page, heads);
        drawHead(page, new Box(notesLeft() + 1, heads, NOTES, COLUMN_HEADS), "note");
        page.rule(area.left(), area.top(), area.right());
        return page;
    }

    private static void drawField(Canvas page, Box fields, double from, double share, String name) {
        double left = fields.left() + from * fields.width();
        double nameWidth = 6 + name.length() * 1.7;
        page.write(new Box(left, fields.top(), nameWidth, fields.height()), name, Style.plain(11));
        page.line(left + nameWidth, fields.bottom() - 0.5, left + share * fields.width(), fields.bottom() - 0.5);
    }

    private String rules() {
        var trial = desk.trial();
        var rules = trial.definitions().entrySet().stream()
                .filter(e -> columns.contains(e.getKey()))
                .map(e -> e.getKey() + ": " + e.getValue() + ".")
                .collect(Collectors.toCollection(ArrayList::new));
        rules.add(
                trial.counting().cumulative()
                        ? "Count all so far, not only what is new."
                        : "Count only what is new since the last count.");
        if (columns.contains(SOWN)) {
            rules.add("sown: write it only if it isn’t " + trial.counting().seedsPerFrame() + ".");
        }
        if (sownAsNote) {
            rules.add("Under note: which frame was sown with another number than "
                    + trial.counting().seedsPerFrame() + ".");
        }
        rules.add("Not read is an empty box, never a 0.");
        return String.join(" ", rules);
    }

    private void drawHead(Canvas page, Box box, String name) {
        page.write(box.within(0.8), name, Style.plain(9));
    }

    private void drawBoxHeads(Canvas page, double top) {
        double width = boxWidth();
        double left = boxesLeft();
        boolean several = !frameByFrame && framesInLine() > 1;
        for (int frame = 1; frame <= framesInLine(); frame++) {
            double group = width * columns.size();
            if (several) {
                page.write(
                        new Box(left, top, group, COLUMN_HEADS / 2).within(0.6),
                        "frame " + frame,
                        Style.plain(9).middle());
                page.line(left, top + 1, left, area.top());
            }
            double namesTop = several ? top + COLUMN_HEADS / 2 : top;
            for (var column : columns) {
                page.write(
                        new Box(left, namesTop, width, area.top() - namesTop).within(0.5),
                        column,
                        Style.plain(8).middle());
                left += width;
            }
        }
    }

    private void draw() {
        Tray before = null;
        int lines = frameByFrame ? desk.trial().counting().framesPerTray() : 1;
        int together = Math.min(lines, (int) Math.floor(area.height() / LINE));
        for (var tray : desk.trays(day)) {
            for (int first = 1; first <= lines; first += together) {
                int last = Math.min(lines, first + together - 1);
                var strip = flow.strip((last - first + 1) * LINE);
                if (before != null && Desk.apart(before, tray)) {
                    flow.page().rule(strip.left(), strip.top(), strip.right());
                }
                drawTray(strip, tray, first, last);
                before = tray;
            }
        }
    }

    private void drawTray(Box strip, Tray tray, int first, int last) {
        var page = flow.page();
        page.write(
                new Box(strip.left(), strip.top(), CODE, strip.height()).within(0.5),
                tray.code(),
                Style.plain(15).heavy());
        page.write(
                new Box(strip.left() + CODE, strip.top(), WHERE, strip.height()).within(0.5),
                desk.where(tray),
                Style.plain(9));
        for (int line = first; line <= last; line++) {
            double top = strip.top() + (line - first) * LINE;
            if (frameByFrame) {
                page.write(new Box(boxesLeft() - FRAME, top, FRAME, LINE).within(0.5), "frame " + line, Style.plain(9));
            }
            for (int i = 0; i < framesInLine() * columns.size(); i++) {
                page.outline(new Box(boxesLeft() + i * boxWidth(), top, boxWidth(), LINE));
            }
        }
        for (int frame = 0; frame <= framesInLine(); frame++) {
            page.upright(boxesLeft() + frame * columns.size() * boxWidth(), strip.top(), strip.bottom());
        }
        page.line(strip.left(), strip.bottom(), strip.right(), strip.bottom());
    }
}
