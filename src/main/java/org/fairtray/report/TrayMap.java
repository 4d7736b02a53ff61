package org.fairtray.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.TrayValue;
import org.fairtray.report.pages.TrayMapView;
import org.fairtray.report.pages.TrayMapView.Cell;
import org.fairtray.report.pages.TrayMapView.Grid;
import org.fairtray.report.pages.TrayMapView.GridRow;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * Draws the trays as they stood: the two innermost place levels as rows and columns, everything outside them as groups.
 * Mostly the innermost level runs downwards, as positions in a stack do.
 */
final class TrayMap {
    private static final int COLUMNS_ON_A_PHONE = 6;
    /** More columns than this run off a printed page. */
    private static final int COLUMNS_ON_PAPER = 8;

    private static final int COLUMNS_OF_A_LIST = 4;

    private final Names names;
    private final Place place;
    private final OutcomeFindings outcome;
    private final Map<Stand, Tray> trays = new HashMap<>();
    private final Map<String, TrayValue> values = new HashMap<>();
    private final Amounts amounts;
    private final double least;
    private final double most;

    TrayMap(Trial trial, Layout layout, OutcomeFindings outcome) {
        this.names = new Names(trial);
        this.place = trial.place();
        this.outcome = outcome;
        this.amounts = Amounts.of(outcome);
        layout.trays().forEach(t -> trays.put(t.stand(), t));
        outcome.trayValues().forEach(v -> values.put(v.tray(), v));
        boolean count = Names.isCount(outcome);
        var range = outcome.trayValues().stream()
                .filter(v -> v.value() != null)
                .mapToDouble(TrayValue::value)
                .summaryStatistics();
        least = count ? 0 : range.getMin();
        most = count ? 1 : range.getMax();
    }

    TrayMapView view() {
        var levels = place.levels();
        if (levels.size() == 1) {
            return new TrayMapView(reading(false), List.of(list()));
        }
        var outside = levels.subList(0, levels.size() - 2);
        boolean down = innermostRunsDown();
        var grids = new ArrayList<Grid>();
        for (var group : groups(outside)) {
            int columns = (down ? outer() : inner()).count();
            for (int from = 1; from <= columns; from += COLUMNS_ON_PAPER) {
                grids.add(grid(group, down, from, Math.min(columns, from + COLUMNS_ON_PAPER - 1)));
            }
        }
        return new TrayMapView(reading(down), grids);
    }

    private boolean innermostRunsDown() {
        var inner = inner();
        var outer = outer();
        boolean manySmallGroups =
                inner.across().isEmpty() && outer.count() > COLUMNS_ON_A_PHONE && inner.count() <= COLUMNS_ON_A_PHONE;
        return place.innermostRunsDown() && !manySmallGroups;
    }

    private Place.Level inner() {
        return place.levels().get(place.levels().size() - 1);
    }

    private Place.Level outer() {
        return place.levels().get(place.levels().size() - 2);
    }

    private static List<List<Integer>> groups(List<Place.Level> outside) {
        if (outside.isEmpty()) {
            return List.of(List.of());
        }
        return new Place(outside.stream()
                        .map(l -> new Place.Level(l.name(), l.count(), Optional.empty()))
                        .toList())
                .stands().stream().map(Stand::at).toList();
    }

    private Grid grid(List<Integer> group, boolean down, int from, int to) {
        var across = down ? outer() : inner();
        var along = down ? inner() : outer();
        var rows = new ArrayList<GridRow>();
        for (int r = 1; r <= along.count(); r++) {
            var cells = new ArrayList<Cell>();
            for (int c = from; c <= to; c++) {
                cells.add(cell(at(group, down ? c : r, down ? r : c)));
            }
            rows.add(new GridRow(along.name() + " " + r, cells));
        }
        var part = to - from + 1 < across.count() ? ", " + across.name() + " " + from + "–" + to : "";
        return new Grid(caption(group) + part, heads(across, from, to), rows);
    }

    private static Stand at(List<Integer> group, int outer, int inner) {
        var at = new ArrayList<>(group);
        at.add(outer);
        at.add(inner);
        return new Stand(at);
    }

    private static List<String> heads(Place.Level level, int from, int to) {
        return IntStream.rangeClosed(from, to)
                .mapToObj(i -> level.name() + " " + i)
                .toList();
    }

    private String caption(List<Integer> group) {
        if (group.isEmpty()) {
            return "All trays";
        }
        return IntStream.range(0, group.size())
                .mapToObj(i -> place.levels().get(i).name() + " " + group.get(i))
                .collect(Collectors.joining(", "));
    }

    private Grid list() {
        var level = place.levels().get(0);
        var rows = new ArrayList<GridRow>();
        for (int start = 1; start <= level.count(); start += COLUMNS_OF_A_LIST) {
            int end = Math.min(level.count(), start + COLUMNS_OF_A_LIST - 1);
            var cells = IntStream.rangeClosed(start, end)
                    .mapToObj(i -> cell(new Stand(List.of(i))))
                    .toList();
            rows.add(new GridRow(level.name() + " " + start + (end > start ? "–" + end : ""), cells));
        }
        return new Grid("All trays", List.of(), rows);
    }

    private Cell cell(Stand stand) {
        var tray = trays.get(stand);
        if (tray == null) {
            return new Cell("empty", "", "", "empty", 0);
        }
        var brief = names.brief(tray.treatment().levels());
        var value = values.get(tray.code());
        if (value == null || value.value() == null) {
            return new Cell("unread", tray.code(), brief, "not used", 0);
        }
        return new Cell("tray", tray.code(), brief, amounts.amount(value.value()), shade(value.value()));
    }

    private int shade(double value) {
        double share = most > least ? (value - least) / (most - least) : 0;
        return (int) Math.max(0, Math.min(4, Math.floor(share * 5)));
    }

    private List<String> reading(boolean innermostRunsDown) {
        var sentences = new ArrayList<String>();
        sentences.add("In each place: the tray’s code, what it got (" + names.briefOrder() + ") and "
                + Names.outcome(outcome) + ". Darker means higher.");
        if (innermostRunsDown) {
            sentences.add("At the top is " + inner().name() + " 1, as the plan numbers it.");
        }
        if (trays.size() < place.trays()) {
            sentences.add("An empty place had no tray.");
        }
        if (values.size() < trays.size()) {
            sentences.add("A tray that says “not used” had no reading that could be used; the tables say why.");
        }
        return sentences;
    }
}
