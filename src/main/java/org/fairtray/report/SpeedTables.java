package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Speed;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.Table;
import org.fairtray.report.pages.Table.Column;

/** How fast seedlings came out: verdicts, times, indices, and the model behind them. */
final class SpeedTables {
    private final Names names;
    private final Speed speed;
    private final String id;

    SpeedTables(Names names, Speed speed, String id) {
        this.names = names;
        this.speed = speed;
        this.id = id;
    }

    List<Table> forGrowers() {
        return List.of(verdicts(), effects(), curves(), notes());
    }

    private Table verdicts() {
        return new Table(
                id + "-table-speed",
                "Did it make them faster?",
                "About how fast alone, not about how many came out in the end.",
                List.of(text("Change"), text("Verdict"), sentence("In words")),
                speed.verdicts().stream()
                        .map(v -> List.of(v.factor(), v.verdict(), Digits.kept(v.sentence())))
                        .toList());
    }

    private Table effects() {
        return new Table(
                id + "-table-speed-effects",
                "How many days earlier or later",
                "The mean time of those that came out; below zero is earlier than the control.",
                List.of(
                        text("Change"),
                        number("Days"),
                        number("Control, days"),
                        number("Difference, days"),
                        number(names.sure() + " interval"),
                        number("p adjusted")),
                speed.effects().stream().map(this::row).toList());
    }

    private List<String> row(Effect effect) {
        return List.of(
                names.effect(effect),
                Digits.fixed(effect.value(), 1),
                Digits.fixed(effect.againstValue(), 1),
                Digits.fixed(effect.difference(), 2),
                Digits.range(Digits.fixed(effect.low(), 2), Digits.fixed(effect.high(), 2)),
                Digits.p(effect.pAdjusted()));
    }

    private Table notes() {
        return new Table(
                id + "-table-speed-notes",
                "What was left out of the speed",
                "Each with its reason.",
                List.of(sentence("Note")),
                speed.notes().stream().map(List::of).toList());
    }

    private Table curves() {
        return new Table(
                id + "-table-curves",
                "Days until half of them were out",
                "Half of those that came out in the end. Between counting days it is read off a smooth curve; beside it"
                        + " stand the days of counting that it lies between.",
                List.of(
                        text("Treatment"),
                        number("Half out, days"),
                        number(names.sure() + " interval, days"),
                        text("As counted"),
                        number("In the end, %"),
                        number("Steepness"),
                        sentence("Note")),
                speed.curves().stream().map(this::row).toList());
    }

    private List<String> row(Speed.Curve curve) {
        return List.of(
                names.treatment(curve.treatment()),
                Digits.fixed(curve.t50Days(), 1),
                Digits.range(Digits.fixed(curve.low(), 1), Digits.fixed(curve.high(), 1)),
                counted(curve.stepT50Low(), curve.stepT50High()),
                Digits.bare(curve.finalRate()),
                Digits.measure(curve.steepness()),
                curve.note() == null ? "" : curve.note());
    }

    private static String counted(Integer before, Integer reached) {
        if (reached == null) {
            return before == null ? Digits.NOT_AVAILABLE : "after day " + before;
        }
        return before == null ? "by day " + reached : "day " + before + " to " + reached;
    }

    private Table indices() {
        var known = known();
        var columns = new ArrayList<Column>(List.of(text("Treatment")));
        known.values().forEach(i -> columns.add(number(i.name() + unit(i, ", "))));
        return new Table(
                id + "-table-indices",
                "Indices of speed",
                "For comparison with what others write; no verdict rests on them.",
                columns,
                speed.indices().stream()
                        .map(i -> row(i, List.copyOf(known.keySet())))
                        .toList());
    }

    private List<String> row(Speed.Indices indices, List<String> known) {
        var values = indices.values().stream()
                .filter(i -> i.value() != null)
                .collect(Collectors.toMap(Speed.Index::name, Speed.Index::value, (first, again) -> first));
        var row = new ArrayList<String>(List.of(names.treatment(indices.treatment())));
        known.forEach(name -> row.add(Digits.measure(values.get(name))));
        return row;
    }

    private Table sources() {
        return new Table(
                id + "-table-sources",
                "Where the indices come from",
                "Others use the same names for other formulas, so look here before you compare.",
                List.of(text("Index"), text("Unit"), sentence("Defined by")),
                known().values().stream()
                        .map(i -> List.of(i.name(), unit(i, ""), i.source() == null ? "" : i.source()))
                        .toList());
    }

    /** One of each index that any treatment has, by name. */
    private Map<String, Speed.Index> known() {
        var known = new LinkedHashMap<String, Speed.Index>();
        speed.indices().forEach(t -> t.values().forEach(i -> known.putIfAbsent(i.name(), i)));
        return known;
    }

    private static String unit(Speed.Index index, String before) {
        boolean none =
                index.unit() == null || index.unit().isBlank() || index.unit().equals("none");
        return none ? "" : before + index.unit();
    }

    /** Tests, the grouped-time model, and indices that no verdict rests on. */
    Group model() {
        var tables = new ArrayList<Table>();
        tables.add(TestTables.of(
                id + "-table-speed-tests", "Tests that the verdicts on speed rest on", "Dispersion", speed.tests()));
        var hazard = speed.hazard();
        if (hazard != null) {
            tables.add(FitTables.terms(id + "-table-hazard-terms", "Grouped-time model: terms", hazard.terms()));
            tables.add(FitTables.coefficients(
                    id + "-table-hazard-coefficients",
                    "Grouped-time model: coefficients",
                    "Logarithms of ratios of hazards; above 0 is faster than the control.",
                    names.sure(),
                    hazard.coefficients()));
        }
        tables.add(indices());
        tables.add(sources());
        return new Group(
                id + "-speed-model",
                "Tests, model and indices of speed, for statisticians",
                "",
                hazard == null ? "" : quality(hazard),
                true,
                List.of(),
                tables,
                List.of());
    }

    private static String quality(Speed.Hazard hazard) {
        var out = hazard.daysLeftOut().isEmpty()
                ? ""
                : " Days that tell nothing and were left out: "
                        + hazard.daysLeftOut().stream().map(String::valueOf).collect(Collectors.joining(", ")) + ".";
        return "Grouped-time proportional hazards, complementary log-log, each day its own intercept. Log-likelihood "
                + Digits.statistic(hazard.logLikelihood()) + "." + out;
    }
}
