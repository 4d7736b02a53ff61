package org.fairtray.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.fairtray.findings.Numbers;
import org.fairtray.findings.Pooled;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.Curves;
import org.fairtray.report.charts.DotRows;
import org.fairtray.report.charts.DotRows.Mark;
import org.fairtray.report.charts.DotRows.Row;
import org.fairtray.report.charts.Scatter;
import org.fairtray.report.pages.OutcomeView.Figure;

/**
 * Pictures of one pooled effect: trial by trial with the mean below, the mean as trials came, without each trial, and
 * small trials beside large ones. Rates are told in points of the mean rate under the level compared with.
 */
final class PooledFigures {
    private static final int MOST_ROWS = 40;

    private final Pooled.Effect effect;
    private final String id;
    private final boolean count;

    PooledFigures(Pooled.Effect effect, String id) {
        this.effect = effect;
        this.id = id;
        this.count = effect.againstRate() != null;
    }

    /** Every trial, or of many those that weigh most, then the mean. */
    Figure trials() {
        double largest = effect.studies().stream()
                .mapToDouble(Pooled.Study::weight)
                .max()
                .orElse(1);
        var shown = effect.studies();
        if (shown.size() > MOST_ROWS) {
            var heaviest = shown.stream()
                    .sorted(Comparator.comparingDouble(Pooled.Study::weight).reversed())
                    .limit(MOST_ROWS)
                    .toList();
            shown = shown.stream().filter(heaviest::contains).toList();
        }
        var rows = new ArrayList<Row>();
        shown.forEach(
                s -> rows.add(row(s.trial(), s.estimate(), s.low(), s.high(), Mark.weighing(s.weight() / largest))));
        var prediction = Mark.reaching(onAxis(effect.predictionLow()), onAxis(effect.predictionHigh()));
        if (effect.trials() > 1) {
            rows.add(row(
                    "Mean of " + Digits.counted(effect.trials(), "trial", "trials"),
                    effect.estimate(),
                    effect.low(),
                    effect.high(),
                    prediction));
        }
        var reading = "Each square is a trial, the larger the more it weighs; the bar is its 95 % interval."
                + (effect.trials() > 1 ? " The diamond is the mean" : "")
                + (effect.predictionLow() == null
                        ? ""
                        : ", and the dashed line shows where another such trial may come out")
                + (effect.trials() > 1 ? "." : "")
                + (effect.studies().size() > MOST_ROWS
                        ? " The " + MOST_ROWS + " trials that weigh most are drawn; the table holds them all."
                        : "");
        return rows("trials", "Trial by trial", rows, reading);
    }

    /** The mean of the first trials, one more at a time. */
    Optional<Figure> cumulative() {
        return steps(
                "cumulative",
                "As trials came",
                effect.cumulative(),
                s -> (s.trials() == 1 ? "" : "+ ") + s.trial(),
                "Each row is the mean of its trial and of all above it, in the order in which they were drawn: so the answer"
                        + " sharpened.");
    }

    /** The mean without each trial. */
    Optional<Figure> leaveOneOut() {
        return steps(
                "without",
                "Without each trial",
                effect.leaveOneOut(),
                s -> "without " + s.trial(),
                "Each row is the mean without that trial. Where they all agree, no single trial makes the answer.");
    }

    private Optional<Figure> steps(
            String part, String title, List<Pooled.Step> steps, Function<Pooled.Step, String> label, String reading) {
        if (steps.isEmpty()) {
            return Optional.empty();
        }
        var shown = steps.subList(Math.max(0, steps.size() - MOST_ROWS), steps.size());
        var rows = shown.stream()
                .map(s -> row(label.apply(s), s.estimate(), s.low(), s.high(), Mark.PLAIN))
                .toList();
        return Optional.of(rows(
                part,
                title,
                rows,
                reading + (steps.size() > MOST_ROWS ? " The last " + MOST_ROWS + " rows are drawn." : "")));
    }

    /** Small trials lie low, so that a gap at one side would show. */
    Optional<Figure> funnel() {
        if (effect.studies().size() < 3) {
            return Optional.empty();
        }
        var points = effect.studies().stream()
                .map(s -> new Curves.Point(s.estimate(), 1 / s.standardError()))
                .toList();
        var chart = new Scatter(
                "Small trials and large ones",
                Descriptions.list(effect.studies().stream()
                        .map(s -> s.trial() + ": " + Digits.measure(s.estimate()) + ", standard error "
                                + Digits.measure(s.standardError()))
                        .toList()),
                Axis.around("effect, " + effect.scale(), points.stream().mapToDouble(Curves.Point::x)),
                Axis.around("1 / standard error", points.stream().mapToDouble(Curves.Point::y)),
                points,
                Optional.empty(),
                Optional.of(effect.estimate()));
        return Optional.of(new Figure(
                "Small trials and large ones",
                chart.svg(id + "-funnel"),
                "Each ring is a trial; the surer it is of itself, the higher it lies. Rings that lie on both sides of"
                        + " the line alike, spreading downwards, give no reason to doubt."));
    }

    private Row row(String label, Double middle, Double low, Double high, Mark mark) {
        var words = said(middle) + (low == null ? "" : " (" + Digits.range(bare(low), bare(high)) + ")");
        return new Row(label, words, List.of(), onAxis(middle), onAxis(low), onAxis(high), mark);
    }

    private Figure rows(String part, String title, List<Row> rows, String reading) {
        var axis = Axis.around(
                count ? "difference, percentage points" : "difference in " + effect.outcome(),
                DoubleStream.concat(
                        DoubleStream.of(0),
                        rows.stream()
                                .flatMap(r -> Stream.of(
                                                r.middle(),
                                                r.low(),
                                                r.high(),
                                                r.mark().farLow(),
                                                r.mark().farHigh())
                                        .filter(Objects::nonNull))
                                .mapToDouble(v -> v)));
        var description = Descriptions.list(
                rows.stream().map(r -> r.label() + ": " + r.value()).toList());
        return new Figure(
                part.equals("trials") ? "" : title,
                new DotRows(title, description, axis, rows, Optional.empty()).svg(id + "-" + part),
                reading);
    }

    /** An effect as a difference of rates, or as it is. */
    private Double difference(Double value) {
        if (value == null || !count) {
            return value;
        }
        return Numbers.changed(effect.againstRate(), value) - effect.againstRate();
    }

    private Double onAxis(Double value) {
        var difference = difference(value);
        return difference == null || !count ? difference : Double.valueOf(100 * difference);
    }

    private String said(Double value) {
        return count ? Digits.points(difference(value)) : Digits.signed(Digits.measure(value));
    }

    private String bare(Double value) {
        return count ? Digits.pointNumber(difference(value)) : Digits.measure(value);
    }
}
