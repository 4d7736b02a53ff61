package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.report.pages.TrayMapView;
import org.fairtray.report.pages.TrayMapView.Cell;
import org.fairtray.report.pages.TrayMapView.Grid;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

class TrayMapTest {
    private static final List<Factor> SOAK = List.of(new Factor("soak", Optional.of("h"), List.of("0", "8"), "tray"));

    private static TrayMapView map(int trays, Place.Level... levels) {
        var trial = SampleFindings.trial("Places", SOAK, new Place(List.of(levels)));
        return map(trial, SampleFindings.layout(trial, trays));
    }

    private static TrayMapView map(Trial trial, Layout layout) {
        return new TrayMap(trial, layout, SampleOutcomes.nothingToTell(trial, layout)).view();
    }

    private static String shape(Grid grid) {
        return grid.caption() + " | " + String.join(", ", grid.columns()) + " | "
                + grid.rows().stream().map(TrayMapView.GridRow::head).collect(Collectors.joining(", "));
    }

    @Test
    void drawsStacksAsColumnsWithPositionOneOnTop() {
        var map = map(
                24,
                SampleFindings.level("shelf", 2),
                SampleFindings.level("stack", 3),
                SampleFindings.across("position", 4, "stack"));
        assertEquals(2, map.grids().size());
        assertEquals(
                "shelf 1 | stack 1, stack 2, stack 3 | position 1, position 2, position 3, position 4",
                shape(map.grids().get(0)));
        assertTrue(map.reading().contains("At the top is position 1, as the plan numbers it."));
    }

    @Test
    void drawsColumnsOfASquareSideways() {
        var map = map(16, SampleFindings.level("row", 4), SampleFindings.across("column", 4, "row"));
        assertEquals(
                "All trays | column 1, column 2, column 3, column 4 | row 1, row 2, row 3, row 4",
                shape(map.grids().get(0)));
    }

    @Test
    void drawsManySmallBlocksUnderEachOther() {
        var map = map(16, SampleFindings.level("block", 8), SampleFindings.level("spot", 2));
        assertEquals(List.of("spot 1", "spot 2"), map.grids().get(0).columns());
        assertEquals(8, map.grids().get(0).rows().size());
    }

    @Test
    void cutsWhatIsTooWideForPaper() {
        var map = map(200, SampleFindings.level("block", 20), SampleFindings.level("spot", 10));
        assertEquals(
                List.of("All trays, block 1–8", "All trays, block 9–16", "All trays, block 17–20"),
                map.grids().stream().map(Grid::caption).toList());
        assertEquals(
                200,
                map.grids().stream()
                        .flatMap(g -> g.rows().stream())
                        .mapToInt(r -> r.cells().size())
                        .sum());
    }

    @Test
    void listsPlacesOfASingleLevel() {
        var map = map(6, SampleFindings.level("spot", 6));
        assertEquals("All trays |  | spot 1–4, spot 5–6", shape(map.grids().get(0)));
    }

    @Test
    void groupsByEverythingOutside() {
        var map = map(
                16,
                SampleFindings.level("room", 2),
                SampleFindings.level("shelf", 2),
                SampleFindings.level("stack", 2),
                SampleFindings.level("position", 2));
        assertEquals(
                List.of("room 1, shelf 1", "room 1, shelf 2", "room 2, shelf 1", "room 2, shelf 2"),
                map.grids().stream().map(Grid::caption).toList());
    }

    @Test
    void putsEachTrayWhereItStoodAndShowsWhatIsMissing() {
        var trial = SampleFindings.trial(
                "Places", SOAK, new Place(List.of(SampleFindings.level("block", 1), SampleFindings.level("spot", 3))));
        var layout = new Layout(List.of(
                new Tray("A1", new Stand(List.of(1, 3)), Map.of(), new Treatment(Map.of("soak", "8"))),
                new Tray("B2", new Stand(List.of(1, 1)), Map.of(), new Treatment(Map.of("soak", "0")))));
        var map = map(trial, layout);
        var cells =
                map.grids().get(0).rows().stream().map(r -> r.cells().get(0)).toList();
        assertEquals(
                List.of(
                        new Cell("unread", "B2", "0 h", "not used", 0),
                        new Cell("empty", "", "", "empty", 0),
                        new Cell("tray", "A1", "8 h", "0\u00a0%", 0)),
                cells);
        assertTrue(map.reading().contains("An empty place had no tray."));
    }
}
