package org.fairtray.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings.CountSummary;
import org.fairtray.findings.Findings.MeasureSummary;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Summary;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.DotRows;
import org.fairtray.report.charts.DotRows.Row;
import org.fairtray.report.pages.OutcomeView.Figure;

/** Every tray by its treatment, and what each change did. */
final class OutcomeFigures {
    private static final int MOST_ROWS = 60;

    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;
    private final boolean count;
    private final Amounts amounts;

    OutcomeFigures(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
        this.count = Names.isCount(outcome);
        this.amounts = Amounts.of(outcome);
    }

    /** Each tray a ring under its treatment's name, with the treatment's rate or mean. */
    List<Figure> trays() {
        var dots = new LinkedHashMap<Map<String, String>, List<Double>>();
        for (var tray : outcome.trayValues()) {
            if (tray.value() != null) {
                dots.computeIfAbsent(tray.treatment(), t -> new ArrayList<>()).add(amounts.onAxis(tray.value()));
            }
        }
        var rows = outcome.summary().stream()
                .map(s -> row(s, dots.getOrDefault(s.treatment(), List.of())))
                .toList();
        if (rows.isEmpty()) {
            return List.of();
        }
        var axis = count ? new Axis(Names.axis(outcome), 0, 100) : Axis.around(Names.axis(outcome), values(rows));
        var reading = "Each ring is a tray. The diamond is the " + (count ? "rate" : "mean")
                + " of the treatment, the bar its " + names.sure() + " interval.";
        return List.of(figure("", "trays", "Every tray, " + Names.outcome(outcome), axis, rows, null, reading));
    }

    private Row row(Summary summary, List<Double> dots) {
        var label = names.treatment(summary.treatment());
        if (summary instanceof CountSummary rate) {
            return row(label, dots, rate.rate(), rate.low(), rate.high());
        }
        var mean = (MeasureSummary) summary;
        return row(label, dots, mean.mean(), mean.low(), mean.high());
    }

    private Row row(String label, List<Double> dots, Double middle, Double low, Double high) {
        var words = amounts.amount(middle) + brackets(amounts.range(low, high));
        return new Row(label, words, dots, amounts.onAxis(middle), amounts.onAxis(low), amounts.onAxis(high));
    }

    /** Differences against the control; the zone that isn't worth acting on is shaded where the plan named one. */
    List<Figure> effects(OptionalDouble worthwhile) {
        var rows = outcome.effects().stream().map(this::row).toList();
        if (rows.isEmpty()) {
            return List.of();
        }
        var zone = count && worthwhile.isPresent()
                ? new DotRows.Zone(-100 * worthwhile.getAsDouble(), 100 * worthwhile.getAsDouble())
                : null;
        var edges = zone == null ? DoubleStream.of(0) : DoubleStream.of(0, zone.low(), zone.high());
        var axis = Axis.around(
                count ? "difference, percentage points" : "difference in " + outcome.name(),
                DoubleStream.concat(values(rows), edges));
        var reading = "A diamond right of the line means more than the control, left of it less. The bar is the "
                + names.sure() + " interval."
                + (zone == null
                        ? ""
                        : " Inside the shaded band, up to " + Digits.pointNumber(worthwhile.getAsDouble())
                                + " points either way, a difference is too small to be worth acting on, as the plan says.");
        return List.of(figure("", "effects", "Differences, " + Names.outcome(outcome), axis, rows, zone, reading));
    }

    private Row row(Effect effect) {
        return new Row(
                names.effect(effect),
                amounts.difference(effect.difference())
                        + brackets(amounts.differenceRange(effect.low(), effect.high())),
                List.of(),
                amounts.onAxis(effect.difference()),
                amounts.onAxis(effect.low()),
                amounts.onAxis(effect.high()));
    }

    private Figure figure(
            String heading, String part, String title, Axis axis, List<Row> rows, DotRows.Zone zone, String reading) {
        var shown = rows.subList(0, Math.min(MOST_ROWS, rows.size()));
        var description = Descriptions.list(rows.stream()
                .map(r -> r.label() + ": " + r.value() + (r.dots().isEmpty() ? "" : ", " + trays(r)))
                .toList());
        var chart = new DotRows(title, description, axis, shown, Optional.ofNullable(zone));
        var more = rows.size() > MOST_ROWS
                ? " The first " + MOST_ROWS + " of " + rows.size() + " are drawn; the table holds them all."
                : "";
        var some = outcome.trayValues().size() > DotRows.MOST_DOTS && part.equals("trays")
                ? " So that it stays readable, only some of the trays are drawn."
                : "";
        return new Figure(heading, chart.svg(id + "-" + part), reading + more + some);
    }

    private static String trays(Row row) {
        return Digits.counted(row.dots().size(), "tray", "trays");
    }

    private static DoubleStream values(List<Row> rows) {
        return rows.stream()
                .flatMap(r -> Stream.concat(
                        r.dots().stream(),
                        Stream.of(r.middle(), r.low(), r.high()).filter(Objects::nonNull)))
                .mapToDouble(v -> v);
    }

    private static String brackets(String range) {
        return range.equals(Digits.NOT_AVAILABLE) ? "" : " (" + range + ")";
    }
}
