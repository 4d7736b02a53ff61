package org.fairtray.sheets;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Stand;

/** Which tray is carried where on one day, in an order that needs room for one tray; no treatment on it. */
final class MoveSheets {
    static final String NAME = "Moves";

    private static final String ASIDE = "set aside";
    private static final double BETWEEN = 8;
    private static final double NOTE = 10;
    private static final double GROUP = 9;
    private static final double LINE = 7.2;
    private static final double TICK = 4;
    private static final double CODE = 24;
    private static final double ARROW = 7;
    /** Letters of the name of the places that are exchanged; the rack map shows more. */
    private static final int LONGEST_LEVEL = 12;

    private final Desk desk;
    private final int day;
    private final int own;
    private final List<Box> columns;
    private final Flow flow;

    private MoveSheets(Desk desk, int day) {
        this.desk = desk;
        this.day = day;
        own = desk.place().names().indexOf(desk.trial().rotation().orElseThrow().level());
        columns = desk.columns(2, BETWEEN, NOTE);
        flow = new Flow(desk.face(), columns, this::page);
    }

    /** The name of the sheets of one day. */
    static String name(int day) {
        return "Move on day " + day;
    }

    static List<Page> of(Desk desk, int day) {
        var sheets = new MoveSheets(desk, day);
        sheets.draw();
        return sheets.flow.pages();
    }

    private Canvas page() {
        var page = desk.headed(name(day));
        var area = desk.area();
        page.write(
                new Box(area.left(), area.top(), area.width(), NOTE - 1),
                "One line after the other, from the top: each place is free when a tray comes to it. A tray that is set aside"
                        + " waits, and goes where a later line says. Trays that are not named stay.",
                Style.plain(9.5));
        columns.forEach(c -> page.rule(c.left(), c.top(), c.right()));
        return page;
    }

    /** Trays change nothing but one number of their stand, so each such group moves by itself. */
    private void draw() {
        var after = desk.handling().on(day, desk.trays());
        var groups = desk.trays(day - 1).stream()
                .collect(Collectors.groupingBy(t -> others(t.stand()), LinkedHashMap::new, Collectors.toList()));
        groups.values().forEach(group -> {
            var steps = MovingOrder.of(group, after);
            if (!steps.isEmpty()) {
                drawGroup(groupName(group.get(0).stand()), steps);
            }
        });
    }

    private List<Integer> others(Stand stand) {
        return IntStream.range(0, stand.at().size())
                .filter(i -> i != own)
                .mapToObj(stand.at()::get)
                .toList();
    }

    private String groupName(Stand stand) {
        return IntStream.range(0, stand.at().size())
                .filter(i -> i != own)
                .mapToObj(i -> unit(i, stand))
                .collect(Collectors.joining(", "));
    }

    private String unit(int level, Stand stand) {
        return Desk.unit(desk.place().names().get(level), stand.at().get(level));
    }

    private void drawGroup(String name, List<MovingOrder.Step> steps) {
        double head = name.isEmpty() ? 0 : GROUP;
        double whole = head + steps.size() * LINE;
        flow.gap(2);
        flow.keep(Math.min(whole, flow.roomInColumn()));
        if (head > 0) {
            flow.page()
                    .write(flow.strip(head).within(0.6), name, Style.plain(13).heavy());
        }
        steps.forEach(this::drawStep);
    }

    private void drawStep(MovingOrder.Step step) {
        var strip = flow.strip(LINE);
        var page = flow.page();
        page.outline(new Box(strip.left(), strip.top() + (LINE - TICK) / 2, TICK, TICK));
        double left = strip.left() + TICK + 1;
        page.write(
                new Box(left, strip.top(), CODE, LINE).within(0.5),
                step.tray(),
                Style.plain(14).heavy());
        left += CODE;
        double width = (strip.right() - left - ARROW) / 2;
        page.write(new Box(left, strip.top(), width, LINE).within(0.5), place(step.from()), Style.plain(11));
        page.write(
                new Box(left + width, strip.top(), ARROW, LINE).within(0.5),
                "→",
                Style.plain(13).middle());
        page.write(
                new Box(left + width + ARROW, strip.top(), width, LINE).within(0.5),
                place(step.to()),
                Style.plain(12).heavy());
        page.line(strip.left(), strip.bottom(), strip.right(), strip.bottom());
    }

    private String place(Optional<Stand> stand) {
        return stand.map(s -> Desk.unit(desk.place().names().get(own), s.at().get(own), LONGEST_LEVEL))
                .orElse(ASIDE);
    }
}
