package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.fairtray.findings.Pooled;
import org.fairtray.report.pages.Table;

/** The numbers behind a page on pooled trials. */
final class PooledTables {
    private final Pooled pooled;

    PooledTables(Pooled pooled) {
        this.pooled = pooled;
    }

    /** "8 h against 0 h", or with the factor's name where levels have no unit. */
    static String pair(Pooled.Effect effect) {
        return effect.factor() + " " + with(effect.unit(), effect.level()) + " against "
                + with(effect.unit(), effect.against());
    }

    static String level(Pooled.Effect effect, String level) {
        return effect.unit() == null ? effect.factor() + " " + level : with(effect.unit(), level);
    }

    private static String with(String unit, String level) {
        return unit == null ? level : level + " " + unit;
    }

    private static String orNone(String text) {
        return text == null ? "–" : text;
    }

    private static String scaled(Double value) {
        return Digits.fixed(value, 3);
    }

    private static String range(Double low, Double high) {
        return Digits.range(scaled(low), scaled(high));
    }

    Table leftOut() {
        return new Table(
                "left-out-table",
                "Left out, and why",
                "",
                List.of(text("Trial"), text("Factor"), sentence("Reason")),
                pooled.leftOut().stream()
                        .map(l -> List.of(l.trial(), l.factor() == null ? "all" : l.factor(), l.reason()))
                        .toList());
    }

    Table trials(Pooled.Effect effect, String id) {
        return new Table(
                id + "-table",
                "Every trial, on the scale of " + effect.scale(),
                "A weight is the trial’s share in the mean.",
                List.of(
                        text("Trial"),
                        text("Drawn"),
                        number("Effect"),
                        number("Standard error"),
                        number("95 % interval"),
                        number("Weight, %")),
                effect.studies().stream()
                        .map(s -> List.of(
                                s.trial(),
                                orNone(s.drawn()),
                                scaled(s.estimate()),
                                scaled(s.standardError()),
                                range(s.low(), s.high()),
                                Digits.fixed(s.weight() == null ? null : 100 * s.weight(), 1)))
                        .toList());
    }

    List<Table> moderators(Pooled.Effect effect, String id) {
        var tables = new ArrayList<Table>();
        for (var moderator : effect.moderators()) {
            tables.add(new Table(
                    id + "-by-" + (tables.size() + 1),
                    "By " + moderator.name(),
                    moderator.sentence(),
                    List.of(
                            text(moderator.kind().equals("number") ? "For each unit" : moderator.name()),
                            number("Trials"),
                            number("Effect, " + effect.scale()),
                            number("95 % interval")),
                    moderator.groups().stream()
                            .map(g -> List.of(
                                    g.word().isEmpty() ? "change with " + moderator.name() : g.word(),
                                    Digits.whole(g.trials()),
                                    scaled(g.estimate()),
                                    range(g.low(), g.high())))
                            .toList()));
        }
        return tables;
    }

    /** The two-stage and the one-stage answer side by side. */
    Table ways(Pooled.Effect effect, String id) {
        var rows = new ArrayList<List<String>>();
        rows.add(List.of(
                "trial by trial (" + effect.method() + ")",
                scaled(effect.estimate()),
                scaled(effect.standardError()),
                range(effect.low(), effect.high()),
                Digits.p(effect.p()),
                effect.tau2() == null ? Digits.NOT_AVAILABLE : scaled(Math.sqrt(effect.tau2()))));
        var all = effect.oneStage();
        if (all != null) {
            var slope = all.standardDeviations().get("slope");
            rows.add(List.of(
                    "all trays in one mixed logistic model (Laplace; t with farms − 1 degrees of freedom)",
                    scaled(all.estimate()),
                    scaled(all.standardError()),
                    range(all.low(), all.high()),
                    Digits.p(all.p()),
                    slope == null ? Digits.NOT_AVAILABLE : scaled(slope)));
        }
        return new Table(
                id + "-ways",
                "Two ways of pooling, " + effect.scale(),
                spread(effect) + (all == null ? "" : deviations(all)),
                List.of(
                        sentence("How"),
                        number("Effect"),
                        number("Standard error"),
                        number("95 % interval"),
                        number("p"),
                        number("Effect differs between trials or farms by (standard deviation)")),
                rows);
    }

    private static String spread(Pooled.Effect e) {
        return e.tau2() == null
                ? ""
                : "tau² " + scaled(e.tau2()) + " (" + range(e.tau2Low(), e.tau2High()) + "), I² "
                        + Digits.percent(e.i2())
                        + " (from Q: " + Digits.percent(e.i2FromQ()) + "), Q " + Digits.statistic(e.q()) + " on "
                        + (e.trials() - 1) + " df, p " + Digits.p(e.qP()) + ". Another trial: "
                        + range(e.predictionLow(), e.predictionHigh()) + ".";
    }

    private static String deviations(Pooled.OneStage all) {
        return " Model of " + all.trays() + " trays of " + all.farms() + " farms, standard deviations: "
                + all.standardDeviations().entrySet().stream()
                        .map(d -> d.getKey() + " " + scaled(d.getValue()))
                        .collect(Collectors.joining(", "))
                + "." + (all.why() == null ? "" : " " + all.why());
    }

    Table effects(String id, boolean all) {
        var first = pooled.verdicts().isEmpty() ? "" : pooled.verdicts().get(0).outcome();
        return new Table(
                id,
                all ? "All effects" : "Other outcomes",
                "",
                List.of(
                        text("Outcome"),
                        text("Levels"),
                        number("Trials"),
                        number("Effect"),
                        number("95 % interval"),
                        number("p"),
                        number("p, adjusted"),
                        number("tau²"),
                        number("Another trial")),
                pooled.effects().stream()
                        .filter(e -> all || !e.outcome().equals(first))
                        .map(e -> List.of(
                                e.outcome() + (e.of() == null ? "" : " of " + e.of()),
                                pair(e),
                                Digits.whole(e.trials()),
                                scaled(e.estimate()),
                                range(e.low(), e.high()),
                                Digits.p(e.p()),
                                Digits.p(e.pAdjusted()),
                                scaled(e.tau2()),
                                range(e.predictionLow(), e.predictionHigh())))
                        .toList());
    }

    Table slopes() {
        return new Table(
                "slopes-table",
                "Change with each unit",
                "Each trial’s straight line through its own levels, then pooled. It says nothing where the truth is a curve.",
                List.of(
                        text("Outcome"),
                        text("Factor"),
                        number("Trials"),
                        number("Change with one unit"),
                        number("95 % interval"),
                        number("p")),
                pooled.slopes().stream()
                        .map(s -> List.of(
                                s.outcome() + ", " + s.scale(),
                                s.factor() + (s.unit() == null ? "" : ", " + s.unit()),
                                Digits.whole(s.trials()),
                                scaled(s.estimate()),
                                range(s.low(), s.high()),
                                Digits.p(s.p())))
                        .toList());
    }

    Table used() {
        return new Table(
                "used-table",
                "Trials that were pooled",
                "The code is the beginning of what tells its pack from every other.",
                List.of(text("Trial"), text("Code"), text("Farm"), text("Drawn"), number("Trays")),
                pooled.used().stream()
                        .map(u -> List.of(
                                u.trial(),
                                u.id().substring(0, Math.min(12, u.id().length())),
                                u.farm().equals(u.id()) ? "–" : u.farm(),
                                orNone(u.drawn()),
                                Digits.whole(u.trays())))
                        .toList());
    }

    Table conditions() {
        var counted = new LinkedHashMap<String, Map<String, Integer>>();
        pooled.used()
                .forEach(u -> u.conditions()
                        .forEach((name, word) -> counted.computeIfAbsent(name, n -> new TreeMap<>())
                                .merge(word, 1, Integer::sum)));
        return new Table(
                "conditions-table",
                "What held for all trays of a trial",
                "",
                List.of(text("What"), sentence("Trials")),
                counted.entrySet().stream()
                        .map(e -> List.of(
                                e.getKey(),
                                e.getValue().entrySet().stream()
                                        .map(w -> w.getKey() + ": " + w.getValue())
                                        .collect(Collectors.joining("; "))))
                        .toList());
    }
}
