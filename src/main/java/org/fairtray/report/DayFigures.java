package org.fairtray.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.fairtray.findings.Findings.Point;
import org.fairtray.findings.Findings.Progress;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.Curves;
import org.fairtray.report.pages.OutcomeView.Figure;

/** Counts by day: a curve for each treatment, in as many panels as keep the curves apart. */
final class DayFigures {
    private static final int MOST_PANELS = 12;

    private final Names names;
    private final String id;

    DayFigures(Names names, String id) {
        this.names = names;
        this.id = id;
    }

    /** Figures of every column that has a rate on some day. */
    List<Figure> of(List<Progress> progress) {
        var byColumn = new LinkedHashMap<String, Map<Map<String, String>, Progress>>();
        for (var curve : progress) {
            if (curve.points().stream().anyMatch(p -> p.rate() != null)) {
                byColumn.computeIfAbsent(curve.column(), c -> new LinkedHashMap<>())
                        .put(curve.treatment(), curve);
            }
        }
        var figures = new ArrayList<Figure>();
        byColumn.forEach((column, curves) -> figures.addAll(column(column, curves, figures.size())));
        return figures;
    }

    private List<Figure> column(String column, Map<Map<String, String>, Progress> curves, int already) {
        var panels = LinePanels.of(List.copyOf(curves.keySet()), Curves.MOST_LINES);
        var figures = new ArrayList<Figure>();
        for (var panel : panels.subList(0, Math.min(MOST_PANELS, panels.size()))) {
            var shown = panel.treatments().stream().map(curves::get).toList();
            var heading = column + " by day" + which(panel, figures.size() + 1, panels.size());
            boolean last = figures.size() == MOST_PANELS - 1 && panels.size() > MOST_PANELS;
            figures.add(new Figure(
                    heading,
                    curves(heading, column, panel, shown).svg(id + "-days-" + (already + figures.size() + 1)),
                    last ? "More treatments than can be drawn; the tables hold them all." : ""));
        }
        return figures;
    }

    private String which(LinePanels.Panel panel, int number, int panels) {
        if (!panel.common().isEmpty()) {
            return ": " + names.treatment(panel.common());
        }
        return panels == 1 ? "" : " (" + number + " of " + panels + ")";
    }

    private Curves curves(String heading, String column, LinePanels.Panel panel, List<Progress> shown) {
        var lines = shown.stream()
                .map(p -> new Curves.Line(
                        names.treatment(p.treatment(), panel.common().keySet()), points(p)))
                .toList();
        return new Curves(heading, description(shown), days(shown), new Axis(column + ", %", 0, 100), lines);
    }

    private static List<Curves.Point> points(Progress progress) {
        return progress.points().stream()
                .filter(p -> p.rate() != null)
                .map(p -> new Curves.Point(p.day(), 100 * p.rate()))
                .toList();
    }

    private static Axis days(List<Progress> shown) {
        var days = shown.stream()
                .flatMap(p -> p.points().stream())
                .mapToInt(Point::day)
                .summaryStatistics();
        double low = Math.max(0, days.getMin() - 1);
        // Room on the right for the numbers at the lines' ends.
        return new Axis("day after sowing", low, days.getMax() + 0.08 * Math.max(1, days.getMax() - low));
    }

    private String description(List<Progress> shown) {
        return Descriptions.list(
                shown.stream().map(this::last).filter(Objects::nonNull).toList());
    }

    private String last(Progress progress) {
        Point last = null;
        for (var point : progress.points()) {
            last = point.rate() == null ? last : point;
        }
        return last == null
                ? null
                : names.treatment(progress.treatment()) + ": " + Digits.percent(last.rate()) + " by day " + last.day();
    }
}
