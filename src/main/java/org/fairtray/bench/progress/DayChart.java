package org.fairtray.bench.progress;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.Curves;

/** Draws lines over the days of a column, with one scale for every picture of it. */
final class DayChart {
    private static final String ID = "by-day";

    private final Progress.Column column;
    private final List<Integer> days;

    /** A name and what it gave by day. */
    record Line(String label, Map<Integer, Double> rates) {}

    DayChart(Progress.Column column, List<Integer> planned) {
        this.column = column;
        this.days = planned;
    }

    private boolean counted() {
        return column.kind().equals("count");
    }

    String svg(String title, List<Line> lines) {
        var curves = lines.stream()
                .map(l -> new Curves.Line(l.label(), points(l.rates())))
                .toList();
        return new Curves(title, description(lines), across(), up(), curves).file(ID);
    }

    private List<Curves.Point> points(Map<Integer, Double> rates) {
        var points = new ArrayList<Curves.Point>();
        rates.forEach((day, rate) -> points.add(new Curves.Point(day, counted() ? 100 * rate : rate)));
        return points;
    }

    private Axis across() {
        var read = column.table().stream().flatMap(r -> r.rates().keySet().stream());
        var all = IntStream.concat(days.stream().mapToInt(d -> d), read.mapToInt(d -> d))
                .summaryStatistics();
        double low = Math.max(0, all.getMin() - 1);
        // Room on the right for the numbers at the lines' ends.
        return new Axis("day after sowing", low, all.getMax() + 0.08 * Math.max(1, all.getMax() - low));
    }

    private Axis up() {
        return counted()
                ? new Axis(column.name() + ", % of seeds sown", 0, 100)
                : Axis.around(
                        column.name(),
                        column.table().stream()
                                .flatMap(r -> r.rates().values().stream())
                                .mapToDouble(r -> r));
    }

    private String description(List<Line> lines) {
        return lines.stream()
                .filter(l -> !l.rates().isEmpty())
                .map(this::last)
                .collect(Collectors.collectingAndThen(
                        Collectors.joining("; "), said -> said.isEmpty() ? "Nothing was counted yet." : said + "."));
    }

    private String last(Line line) {
        int day = line.rates().keySet().stream().mapToInt(d -> d).max().orElseThrow();
        double rate = line.rates().get(day);
        var shown = counted()
                ? String.format(Locale.ROOT, "%.0f %%", 100 * rate)
                : String.format(Locale.ROOT, "%.1f", rate);
        return line.label() + ": " + shown + " on day " + day;
    }
}
