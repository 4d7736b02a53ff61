package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;

/** The rack as it stands, trays by their codes in letters that can be read from a metre away; no treatment on it. */
final class RackMap {
    static final String NAME = "Rack map";
    /** Capital letters about 6 mm high. */
    private static final double CODE_SIZE = 24;

    private static final double NOTE = 6;
    private static final double SIDE_HEAD = 24;
    private static final double GROUP_HEAD = 11;
    private static final double COLUMN_HEAD = 8;
    private static final double NARROWEST = 23;
    private static final double WIDEST = 46;
    private static final double LOWEST = 10;
    private static final double HIGHEST = 16;

    private final Desk desk;
    private final Flow flow;
    private final Box area;
    private final Map<List<Integer>, String> codes = new HashMap<>();
    private final int columnsOnPage;
    private final int rowsOnPage;

    private RackMap(Desk desk) {
        this.desk = desk;
        var whole = desk.area();
        area = new Box(whole.left(), whole.top() + NOTE, whole.width(), whole.height() - NOTE);
        flow = new Flow(desk.face(), area, this::page);
        desk.trays().forEach(t -> codes.put(t.stand().at(), t.code()));
        double widestCode = desk.trays().stream()
                .mapToDouble(t -> desk.face().width(desk.face().shown(t.code())) * CODE_SIZE * 25.4 / 72)
                .max()
                .orElse(0);
        double room = area.width() - SIDE_HEAD;
        double cell = Math.max(NARROWEST, Math.min(room / 2, widestCode + 4));
        columnsOnPage = Math.max(1, (int) Math.floor(room / cell));
        rowsOnPage = (int) Math.floor((area.height() - GROUP_HEAD - COLUMN_HEAD - 1) / LOWEST);
    }

    private Canvas page() {
        var page = desk.headed(NAME);
        var levels = desk.place().levels();
        var inner = Desk.unit(levels.get(levels.size() - 1).name(), 1);
        page.write(
                new Box(area.left(), area.top() - NOTE, area.width(), NOTE - 1),
                "Put each tray where its code stands."
                        + (levels.size() > 1 && desk.place().innermostRunsDown()
                                ? " At the top is " + inner + ", as the plan numbers it."
                                : "")
                        + (desk.handling().moves().isEmpty() ? "" : " So they stand until the first move.")
                        + " Nothing here says what a tray gets.",
                Style.plain(10));
        return page;
    }

    static List<Page> of(Desk desk) {
        var map = new RackMap(desk);
        map.draw();
        return map.flow.pages();
    }

    /** What stands at a row and a column, both from 1. */
    private interface Spot {
        List<Integer> at(int row, int column);
    }

    /** A part of the rack that is drawn as rows and columns, each by the numbers it has. */
    private record Grid(
            String name, String row, List<Integer> rowNumbers, String column, List<Integer> columnNumbers, Spot spot) {
        int rows() {
            return rowNumbers.size();
        }

        int columns() {
            return columnNumbers.size();
        }

        /** Where the place lies that is drawn there, from 1. */
        List<Integer> at(int row, int column) {
            return spot.at(rowNumbers.get(row - 1), columnNumbers.get(column - 1));
        }
    }

    private void draw() {
        var levels = desk.place().levels();
        var inner = levels.get(levels.size() - 1);
        if (levels.size() == 1) {
            drawList(inner);
            return;
        }
        boolean down = desk.place().innermostRunsDown();
        var outer = levels.get(levels.size() - 2);
        for (var group : groups()) {
            Spot spot = (r, c) -> longer(group, down ? c : r, down ? r : c);
            var outers = withTrays(group);
            var inners = numbers(inner.count());
            drawGrid(new Grid(
                    desk.where(group),
                    (down ? inner : outer).name(),
                    down ? inners : outers,
                    (down ? outer : inner).name(),
                    down ? outers : inners,
                    spot));
        }
    }

    /** The units outside the two innermost levels that hold a tray, in walking order. */
    private Set<List<Integer>> groups() {
        var groups = new LinkedHashSet<List<Integer>>();
        for (Tray tray : desk.trays()) {
            var at = tray.stand().at();
            groups.add(at.subList(0, at.size() - 2));
        }
        return groups;
    }

    /** The units next to the innermost level that hold a tray: the others are someone else's, or stay empty. */
    private List<Integer> withTrays(List<Integer> group) {
        return desk.trays().stream()
                .map(t -> t.stand().at())
                .filter(at -> at.subList(0, at.size() - 2).equals(group))
                .map(at -> at.get(at.size() - 2))
                .distinct()
                .sorted()
                .toList();
    }

    private static List<Integer> numbers(int count) {
        return IntStream.rangeClosed(1, count).boxed().toList();
    }

    private static List<Integer> longer(List<Integer> group, int outer, int inner) {
        var at = new ArrayList<>(group);
        at.add(outer);
        at.add(inner);
        return at;
    }

    /** A place of one level: row under row, as one reads. */
    private void drawList(Place.Level level) {
        int wide = Math.min(columnsOnPage, level.count());
        int rows = (level.count() + wide - 1) / wide;
        drawGrid(new Grid("", level.name(), numbers(rows), "", numbers(wide), (r, c) -> List.of((r - 1) * wide + c)));
    }

    private void drawGrid(Grid grid) {
        int wide = evenly(grid.columns(), columnsOnPage);
        int high = evenly(grid.rows(), rowsOnPage);
        for (int left = 1; left <= grid.columns(); left += wide) {
            int right = Math.min(grid.columns(), left + wide - 1);
            for (int top = 1; top <= grid.rows(); top += high) {
                int bottom = Math.min(grid.rows(), top + high - 1);
                if (holdsTray(grid, left, right, top, bottom)) {
                    drawPart(grid, left, right, top, bottom);
                }
            }
        }
    }

    /** How many go on a page, so that pages are filled alike. */
    private static int evenly(int all, int most) {
        int pages = (all + most - 1) / most;
        return (all + pages - 1) / pages;
    }

    private boolean holdsTray(Grid grid, int left, int right, int top, int bottom) {
        for (int row = top; row <= bottom; row++) {
            for (int column = left; column <= right; column++) {
                if (codes.containsKey(grid.at(row, column))) {
                    return true;
                }
            }
        }
        return false;
    }

    private void drawPart(Grid grid, int left, int right, int top, int bottom) {
        int rows = bottom - top + 1;
        int columns = right - left + 1;
        double groupHead = grid.name.isEmpty() ? 0 : GROUP_HEAD;
        double columnHead = grid.column.isEmpty() ? 0 : COLUMN_HEAD;
        double height = Math.max(LOWEST, Math.min(HIGHEST, (flow.roomInColumn() - groupHead - columnHead - 1) / rows));
        double width = Math.min(WIDEST, (area.width() - SIDE_HEAD) / columns);
        flow.gap(3);
        var strip = flow.strip(groupHead + columnHead + rows * height + 0.5);
        var page = flow.page();
        page.write(
                new Box(strip.left(), strip.top(), strip.width(), groupHead - 2),
                grid.name,
                Style.plain(20).heavy());
        double cellsLeft = strip.left() + SIDE_HEAD;
        double cellsTop = strip.top() + groupHead + columnHead;
        for (int column = left; column <= right && columnHead > 0; column++) {
            var head = new Box(cellsLeft + (column - left) * width, cellsTop - columnHead, width, columnHead);
            page.write(
                    head.within(0.8),
                    Desk.unit(grid.column, grid.columnNumbers().get(column - 1)),
                    Style.plain(12).middle());
        }
        for (int row = top; row <= bottom; row++) {
            double rowTop = cellsTop + (row - top) * height;
            page.write(
                    new Box(strip.left(), rowTop + 0.8, SIDE_HEAD - 2, height - 1.6),
                    rowName(grid, row),
                    Style.plain(12));
            for (int column = left; column <= right; column++) {
                drawPlace(
                        page,
                        new Box(cellsLeft + (column - left) * width, rowTop, width, height),
                        codes.get(grid.at(row, column)));
            }
        }
    }

    private String rowName(Grid grid, int row) {
        if (!grid.column.isEmpty()) {
            return Desk.unit(grid.row, grid.rowNumbers().get(row - 1));
        }
        int first = grid.at(row, 1).get(0);
        int last = Math.min(desk.place().levels().get(0).count(), first + grid.columns() - 1);
        return Desk.unit(grid.row, first) + (last > first ? "–" + last : "");
    }

    private static void drawPlace(Canvas page, Box box, String code) {
        if (code == null) {
            page.write(box.within(1.5), "empty", Style.plain(8).middle());
        } else {
            page.outline(box);
            page.write(box.within(0.6), code, Style.plain(CODE_SIZE).heavy().middle());
        }
    }
}
