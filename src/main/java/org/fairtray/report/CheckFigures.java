package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.TrayValue;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.Curves;
import org.fairtray.report.charts.DotRows;
import org.fairtray.report.charts.DotRows.Row;
import org.fairtray.report.charts.Scatter;
import org.fairtray.report.pages.OutcomeView.Figure;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;

/** Whether the picture can be trusted: what the model missed, tray by tray and place by place. */
final class CheckFigures {
    /** Units of a level beyond which a chart of them says nothing. */
    private static final int MOST_UNITS = 40;

    private static final String SURPRISE = "surprise, standard deviations";

    private final Place place;
    private final OutcomeFindings outcome;
    private final String id;
    private final List<TrayValue> trays;

    CheckFigures(Place place, OutcomeFindings outcome, String id) {
        this.place = place;
        this.outcome = outcome;
        this.id = id;
        trays = outcome.trayValues().stream().filter(t -> t.residual() != null).toList();
    }

    /** The residuals' charts; none where no model could be fitted. */
    List<Figure> all() {
        var figures = new ArrayList<Figure>();
        var fitted = trays.stream().filter(t -> t.fitted() != null).toList();
        if (!fitted.isEmpty()) {
            figures.add(fitted(fitted));
        }
        for (var level : place.names()) {
            position(level).ifPresent(figures::add);
        }
        return figures;
    }

    private Figure fitted(List<TrayValue> fitted) {
        double scale = Names.isCount(outcome) ? 100 : 1;
        var points = fitted.stream()
                .map(t -> new Curves.Point(scale * t.fitted(), t.residual()))
                .toList();
        var across =
                Axis.around("expected " + Names.axis(outcome), points.stream().mapToDouble(Curves.Point::x));
        var chart =
                new Scatter("Surprise of each tray, " + Names.outcome(outcome), unusual(), across, surprises(), points);
        return new Figure(
                "Tray by tray",
                chart.svg(id + "-residuals"),
                "How far each tray came out above or below what its treatment and place led to expect (standardised"
                        + " residuals). About 19 of 20 should lie in the shaded band, with no shape to them.");
    }

    private String unusual() {
        var beyond = trays.stream()
                .filter(t -> Math.abs(t.residual()) > 2)
                .map(t -> t.tray() + ": " + Digits.statistic(t.residual()))
                .toList();
        var start = Digits.counted(trays.size(), "tray", "trays") + ". ";
        return beyond.isEmpty() ? start + "None lies beyond 2." : start + "Beyond 2: " + Descriptions.list(beyond);
    }

    private Axis surprises() {
        return Axis.around(
                SURPRISE,
                DoubleStream.concat(DoubleStream.of(-2.5, 2.5), trays.stream().mapToDouble(TrayValue::residual)));
    }

    private Optional<Figure> position(String level) {
        var units = new TreeMap<List<Integer>, List<Double>>(CheckFigures::inOrder);
        for (var tray : trays) {
            var unit = unit(level, tray);
            if (!unit.isEmpty()) {
                units.computeIfAbsent(unit, u -> new ArrayList<>()).add(tray.residual());
            }
        }
        if (units.size() < 2 || units.size() > MOST_UNITS) {
            return Optional.empty();
        }
        var rows = units.entrySet().stream()
                .map(u -> row(level, u.getKey(), u.getValue()))
                .toList();
        var description = Descriptions.list(
                rows.stream().map(r -> r.label() + ": " + r.value()).toList());
        var chart = new DotRows(
                "Surprises by " + level + ", " + Names.outcome(outcome),
                description,
                surprises(),
                rows,
                Optional.empty());
        return Optional.of(new Figure(
                "By " + level,
                chart.svg(id + "-place-" + (place.names().indexOf(level) + 1)),
                "The same surprises, by where the tray stood; the diamond is their mean. Diamonds that climb or fall from"
                        + " one " + level + " to the next show that the place itself did something."));
    }

    /** The unit's numbers from the outside in; for single trays their place in the unit around them. */
    private List<Integer> unit(String level, TrayValue tray) {
        var at = place.names().stream().map(tray.place()::get).toList();
        if (at.stream().anyMatch(Objects::isNull)) {
            return List.of();
        }
        if (place.isTray(level)) {
            return List.of(at.get(place.names().indexOf(level)));
        }
        var stand = new Stand(at);
        return place.key(level).stream().map(i -> stand.at().get(i)).toList();
    }

    private static int inOrder(List<Integer> a, List<Integer> b) {
        for (int i = 0; i < Math.min(a.size(), b.size()); i++) {
            int order = a.get(i).compareTo(b.get(i));
            if (order != 0) {
                return order;
            }
        }
        return Integer.compare(a.size(), b.size());
    }

    private Row row(String level, List<Integer> unit, List<Double> surprises) {
        double mean = surprises.stream().mapToDouble(d -> d).average().orElseThrow();
        var key = place.isTray(level) ? List.of(place.names().indexOf(level)) : place.key(level);
        var name = IntStream.range(0, unit.size())
                .mapToObj(i -> place.names().get(key.get(i)) + " " + unit.get(i))
                .collect(Collectors.joining(", "));
        return new Row(name, "mean " + Digits.statistic(mean), surprises, mean, null, null);
    }
}
