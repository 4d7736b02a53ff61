package org.fairtray.bench.progress;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.fairtray.files.ReadingCells;
import org.fairtray.report.charts.Curves;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * How the counts of a trial come on by day. The columns say nothing of what a tray got; the rest does, and is for after
 * the seal was opened.
 *
 * @param days the plan's days of counting
 * @param columns tray by tray
 * @param treatments the mean of each treatment's trays, for each column
 * @param drawn the lines of the pictures by treatment: the treatments, or the levels of the first factor where there are
 *     more treatments than can be told apart
 */
public record Progress(List<Integer> days, List<Column> columns, List<Mean> treatments, List<Mean> drawn) {

    /** Stands above every curve. */
    public static final String WARNING =
            "Looking isn’t analysing. Curves go up and down by chance, and whoever stops when it"
                    + " looks good finds differences that aren’t there. Count on: the day that the plan names decides.";

    /**
     * A column that is counted or measured.
     *
     * @param kind {@code count} or {@code measure}
     * @param trayCharts how many pictures it takes to show every tray
     * @param table every tray, in walking order
     */
    public record Column(String name, String kind, int trayCharts, List<Row> table) {}

    /**
     * A tray.
     *
     * @param rates by day: counts so far as a share of the seeds sown, or the mean of a measure; a day without a reading
     *     is absent
     */
    public record Row(String tray, Map<Integer, Double> rates) {}

    /**
     * The mean over trays that got the same.
     *
     * @param treatment what they got, in words
     * @param trays how many of them were read on some day
     * @param rates by day, the mean over the trays that were read on it, each tray counting alike
     */
    public record Mean(String column, String treatment, int trays, Map<Integer, Double> rates) {}

    public Progress {
        days = List.copyOf(days);
        columns = List.copyOf(columns);
        treatments = List.copyOf(treatments);
        drawn = List.copyOf(drawn);
    }

    /** The progress of a trial, as far as its readings go. */
    public static Progress of(Trial trial, Layout layout, List<Reading> readings) {
        var walked = Layout.walked(layout.trays());
        var columns = new ArrayList<Column>();
        var treatments = new ArrayList<Mean>();
        var drawn = new ArrayList<Mean>();
        var first = List.of(trial.factors().get(0).name());
        boolean few = walked.stream().map(Tray::treatment).distinct().count() <= Curves.MOST_LINES;
        for (var asked : new ReadingCells(trial).columns()) {
            var column = column(asked, trial, walked, readings);
            var means = means(trial, column, walked, trial.factorNames());
            columns.add(column);
            treatments.addAll(means);
            drawn.addAll(few ? means : means(trial, column, walked, first));
        }
        return new Progress(trial.counting().days(), columns, treatments, drawn);
    }

    private static Column column(ReadingCells.Column asked, Trial trial, List<Tray> walked, List<Reading> readings) {
        boolean measure = asked.of().isEmpty();
        var rates = Rates.of(trial, asked.name(), measure, readings);
        var table =
                walked.stream().map(t -> new Row(t.code(), rates.of(t.code()))).toList();
        int charts = (table.size() + Curves.MOST_LINES - 1) / Curves.MOST_LINES;
        return new Column(asked.name(), measure ? "measure" : "count", charts, table);
    }

    /** The mean of trays with the same levels of some factors, in the plan's order of levels. */
    private static List<Mean> means(Trial trial, Column column, List<Tray> walked, List<String> by) {
        var groups = new LinkedHashMap<Treatment, List<Map<Integer, Double>>>();
        trial.treatments().forEach(t -> groups.put(t.only(by), new ArrayList<>()));
        for (int i = 0; i < walked.size(); i++) {
            groups.computeIfAbsent(walked.get(i).treatment().only(by), t -> new ArrayList<>())
                    .add(column.table().get(i).rates());
        }
        groups.values().removeIf(List::isEmpty);
        return groups.entrySet().stream()
                .map(g -> mean(column.name(), words(trial, g.getKey()), g.getValue()))
                .toList();
    }

    private static Mean mean(String column, String treatment, List<Map<Integer, Double>> trays) {
        var byDay = new TreeMap<Integer, List<Double>>();
        trays.forEach(rates -> rates.forEach((day, rate) ->
                byDay.computeIfAbsent(day, d -> new ArrayList<>()).add(rate)));
        var rates = new TreeMap<Integer, Double>();
        byDay.forEach((day, all) ->
                rates.put(day, all.stream().mapToDouble(r -> r).average().orElseThrow()));
        int read = (int) trays.stream().filter(t -> !t.isEmpty()).count();
        return new Mean(column, treatment, read, Collections.unmodifiableMap(rates));
    }

    private static String words(Trial trial, Treatment treatment) {
        return String.join(
                ", ",
                treatment.levels().entrySet().stream()
                        .map(e -> e.getKey() + " " + trial.factor(e.getKey()).describe(e.getValue()))
                        .toList());
    }

    /**
     * One picture of a column's trays as SVG.
     *
     * @param number from 1, in walking order
     * @throws IllegalArgumentException if there is no such column or picture
     */
    public String trayChart(String column, int number) {
        var of = column(column);
        if (number < 1 || number > of.trayCharts()) {
            throw new IllegalArgumentException(
                    "picture " + number + " of " + column + ": there are " + of.trayCharts());
        }
        int from = (number - 1) * Curves.MOST_LINES;
        var rows = of.table().subList(from, Math.min(of.table().size(), from + Curves.MOST_LINES));
        var title =
                of.name() + " by day" + (of.trayCharts() == 1 ? "" : " (" + number + " of " + of.trayCharts() + ")");
        return new DayChart(of, days)
                .svg(
                        title,
                        rows.stream()
                                .map(r -> new DayChart.Line(r.tray(), r.rates()))
                                .toList());
    }

    /**
     * A column's treatments in one picture as SVG.
     *
     * @throws IllegalArgumentException if there is no such column
     */
    public String treatmentChart(String column) {
        var of = column(column);
        var lines = drawn.stream()
                .filter(m -> m.column().equals(column))
                .map(m -> new DayChart.Line(m.treatment(), m.rates()))
                .toList();
        var shown = lines.subList(0, Math.min(lines.size(), Curves.MOST_LINES));
        var title = of.name() + " by day, mean of trays"
                + (shown.size() == lines.size()
                        ? ""
                        : " (the first " + shown.size() + " of " + lines.size() + " levels)");
        return new DayChart(of, days).svg(title, shown);
    }

    private Column column(String name) {
        return columns.stream()
                .filter(c -> c.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no column '" + name + "'"));
    }
}
