package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.Curves;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.OutcomeView;
import org.fairtray.report.pages.Table;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.Spending;

/** Other sizes of a trial as a chart and a table. */
final class SpendingFigures {
    private final Spending spending;
    private final Sizing sizing;

    /** @param sizing with other sizes */
    SpendingFigures(Sizing sizing) {
        this.sizing = sizing;
        this.spending = sizing.spending();
    }

    /** The chart of power by trays, and the sensible sizes. */
    Group all() {
        return new Group(
                "spend",
                "Where to spend",
                "",
                new SizingWords(sizing).bestSeeds(),
                false,
                List.of(chart()),
                List.of(choices()),
                List.of());
    }

    /** What was taken for granted of costs. */
    Table costs() {
        return new Table(
                "costs",
                "What was taken for granted of costs",
                String.join(" ", spending.notes()),
                List.of(text("Cost"), number("Value"), Table.Column.sentence("From")),
                spending.costs().stream()
                        .map(c -> List.of(c.key(), SizingWords.number(c.value()), c.source()))
                        .toList());
    }

    private OutcomeView.Figure chart() {
        var lines = new ArrayList<Curves.Line>();
        for (var curve : spending.curves()) {
            lines.add(new Curves.Line(
                    curve.seedsPerFrame() * curve.frames() + " seeds counted in a tray",
                    curve.points().stream()
                            .filter(p -> p.trays() <= most())
                            .map(SpendingFigures::point)
                            .toList()));
        }
        if (!spending.budget().isEmpty() && lines.size() < Curves.MOST_LINES) {
            lines.add(new Curves.Line(
                    "where the money is spent: " + Digits.fixed(spending.money(), 0),
                    spending.budget().stream()
                            .filter(p -> p.trays() <= most())
                            .sorted(Comparator.comparingDouble(Spending.Point::trays))
                            .map(SpendingFigures::point)
                            .toList()));
        }
        var curves = new Curves(
                "How sure by how many trays",
                description(),
                new Axis("trays", 0, 1.08 * most()),
                new Axis("finds it in, %", 0, 100),
                lines,
                List.of(
                        new Curves.Mark("wanted", 100 * sizing.wanted(), false),
                        new Curves.Mark("the place is full", spending.places(), true)));
        return new OutcomeView.Figure(
                "How often " + spending.term() + " is found, by trays",
                curves.svg("spend-chart"),
                spending.term()
                        + " is the factor that is hardest to find. Each line is a number of seeds; the level line is how"
                        + " often you want to find it, the upright one is where your place is full.");
    }

    private static Curves.Point point(Spending.Point p) {
        return new Curves.Point(p.trays(), 100 * p.power());
    }

    private double most() {
        double shown = Math.max(2.0 * spending.places(), sizing.trays());
        return spending.curves().stream()
                .flatMap(c -> c.points().stream())
                .mapToDouble(Spending.Point::trays)
                .filter(t -> t <= shown)
                .max()
                .orElse(shown);
    }

    private String description() {
        return spending.curves().stream()
                        .flatMap(c -> c.points().stream()
                                .filter(p -> p.trays() == sizing.trays())
                                .map(p -> sizing.trays() + " trays of " + c.seedsPerFrame() * c.frames() + " seeds: "
                                        + SizingWords.chance(p.power())))
                        .collect(Collectors.joining("; "))
                + ". Wanted " + Math.round(100 * sizing.wanted()) + " %; the place is full with " + spending.places()
                + " trays"
                + (spending.money() == null ? "." : "; the money is " + Digits.fixed(spending.money(), 0) + ".");
    }

    private Table choices() {
        return new Table(
                "choices",
                "Sensible sizes, cheapest first",
                spending.choices().stream().anyMatch(c -> !c.fits())
                        ? "Those that don’t fit need more places, money, time or seed than there is."
                        : "All of them fit what there is.",
                List.of(
                        text("Size"),
                        number("Trays"),
                        number("Frames"),
                        number("Seeds in a frame"),
                        number("Finds it in"),
                        number("Costs, " + spending.currency()),
                        number("Minutes a day"),
                        number("Seed, g"),
                        text("Fits")),
                spending.choices().stream()
                        .map(c -> List.of(
                                c.why(),
                                Integer.toString(c.trays()),
                                Integer.toString(c.frames()),
                                Integer.toString(c.seedsPerFrame()),
                                SizingWords.chance(c.power()),
                                amount(c.cost()),
                                amount(c.minutesADay()),
                                c.grams() == null ? SizingWords.NONE : amount(c.grams()),
                                c.fits() ? "yes" : "no"))
                        .toList());
    }

    /** Whole from 10 on, else with one decimal. */
    private static String amount(double value) {
        return Digits.fixed(value, value < 9.95 ? 1 : 0);
    }
}
