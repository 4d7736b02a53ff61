package org.fairtray.sheets;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Area;
import org.fairtray.trial.FrameSpot;
import org.fairtray.trial.Tray;

/** Where the counting frames lie in each tray, in walking order at sowing, with a sketch of the tray; no treatment on it. */
final class FrameSheets {
    static final String NAME = "Where the frames lie";

    private static final double BETWEEN = 8;
    private static final double NOTE = 10;
    private static final double HEADS = 6;
    private static final double CODE = 26;
    private static final double CARD_HEAD = 9;
    private static final double LINE = 5.4;
    private static final double CELL = 14;
    private static final double SKETCH_HEIGHT = 17.8;
    private static final double GAP = 1.6;
    /** A frame that is drawn smaller than this, mm, has no room for its number. */
    private static final double LEAST_FRAME = 3;

    private final Desk desk;
    private final List<Box> columns;
    private final Flow flow;
    private final Map<String, List<FrameSpot>> frames;
    private final Area tray;
    private final Area frame;
    private final double scale;

    private FrameSheets(Desk desk) {
        this.desk = desk;
        frames = desk.handling().framesByTray();
        tray = desk.trial().counting().tray().orElseThrow();
        frame = desk.trial().counting().frame().orElseThrow();
        columns = desk.columns(2, BETWEEN, NOTE + HEADS);
        double room = columns.get(0).width() - 3 * CELL - 2;
        scale = Math.min(room / tray.across(), SKETCH_HEIGHT / tray.deep());
        flow = new Flow(desk.face(), columns, this::page);
    }

    /** No page where it isn't known where frames lie. */
    static List<Page> of(Desk desk) {
        if (desk.handling().frames().isEmpty()) {
            return List.of();
        }
        var sheets = new FrameSheets(desk);
        Tray before = null;
        for (var tray : desk.trays()) {
            sheets.draw(tray, before != null && Desk.apart(before, tray));
            before = tray;
        }
        return sheets.flow.pages();
    }

    private Canvas page() {
        var page = desk.headed(NAME);
        var area = desk.area();
        page.write(
                new Box(area.left(), area.top(), area.width(), NOTE - 1),
                "Each frame is " + Area.cm(frame.across()) + " cm wide and " + Area.cm(frame.deep())
                        + " cm deep. Measure in cm from the tray’s left edge and from its front edge, the one towards you, to"
                        + " the frame. In the sketch the front edge is the heavy line. Frames stay where they are on all days.",
                Style.plain(9.5));
        for (var column : columns) {
            double top = column.top() - HEADS;
            var names = List.of("frame", "from left", "from front");
            for (int i = 0; i < names.size(); i++) {
                page.write(
                        new Box(column.left() + i * CELL, top, CELL, HEADS).within(0.5),
                        names.get(i),
                        Style.plain(8).middle());
            }
            page.rule(column.left(), column.top(), column.right());
        }
        return page;
    }

    private void draw(Tray tray, boolean apart) {
        var spots = frames.getOrDefault(tray.code(), List.of()).stream()
                .sorted(Comparator.comparingInt(FrameSpot::frame))
                .toList();
        double sketch = this.tray.deep() * scale;
        int together = (int) Math.floor((columns.get(0).height() - CARD_HEAD - 2 * GAP) / LINE);
        for (int first = 0; first < spots.size(); first += together) {
            var part = spots.subList(first, Math.min(spots.size(), first + together));
            double below = Math.max(part.size() * LINE, first == 0 ? sketch : 0);
            var card = flow.strip(CARD_HEAD + below + 2 * GAP);
            var page = flow.page();
            if (apart && first == 0) {
                page.rule(card.left(), card.top(), card.right());
            }
            drawHead(page, card, tray, first > 0);
            drawList(page, card, part);
            if (first == 0) {
                drawSketch(page, card, spots);
            }
            page.line(card.left(), card.bottom(), card.right(), card.bottom());
        }
    }

    private void drawHead(Canvas page, Box card, Tray tray, boolean goesOn) {
        page.write(
                new Box(card.left(), card.top(), CODE, CARD_HEAD).within(0.6),
                tray.code(),
                Style.plain(15).heavy());
        page.write(
                new Box(card.left() + CODE, card.top(), card.width() - CODE, CARD_HEAD).within(0.6),
                (goesOn ? "(goes on) " : "") + desk.where(tray),
                Style.plain(9));
    }

    private static void drawList(Canvas page, Box card, List<FrameSpot> spots) {
        double top = card.top() + CARD_HEAD + GAP;
        for (var spot : spots) {
            var texts = List.of(Integer.toString(spot.frame()), Area.cm(spot.fromLeft()), Area.cm(spot.fromFront()));
            for (int i = 0; i < texts.size(); i++) {
                page.write(
                        new Box(card.left() + i * CELL, top, CELL, LINE),
                        texts.get(i),
                        i == 0
                                ? Style.plain(10).middle()
                                : Style.plain(12).heavy().middle());
            }
            top += LINE;
        }
    }

    private void drawSketch(Canvas page, Box card, List<FrameSpot> spots) {
        double left = card.right() - tray.across() * scale;
        var whole = new Box(left, card.top() + CARD_HEAD + GAP, tray.across() * scale, tray.deep() * scale);
        page.outline(whole);
        page.rule(whole.left(), whole.bottom(), whole.right());
        for (var spot : spots) {
            var drawn = new Box(
                    whole.left() + spot.fromLeft() * scale,
                    whole.bottom() - (spot.fromFront() + frame.deep()) * scale,
                    frame.across() * scale,
                    frame.deep() * scale);
            page.outline(drawn);
            if (Math.min(drawn.width(), drawn.height()) >= LEAST_FRAME) {
                page.write(
                        drawn.within(0.3),
                        Integer.toString(spot.frame()),
                        Style.plain(9).middle());
            }
        }
    }
}
