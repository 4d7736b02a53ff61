package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.findings.Pooled;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.OutcomeView.Card;
import org.fairtray.report.pages.OutcomeView.Figure;
import org.fairtray.report.pages.PooledView;
import org.fairtray.report.pages.ReportView.Fact;
import org.fairtray.trial.Cautions;

/** The page on what many trials showed together, in the report's look. */
public final class PooledPage {
    private final Pooled pooled;
    private final PooledTables tables;

    private PooledPage(Pooled pooled) {
        this.pooled = pooled;
        this.tables = new PooledTables(pooled);
    }

    /** The whole page. */
    public static String of(Pooled pooled) {
        return Report.rendered("report/pooled.jte", new PooledPage(pooled).view());
    }

    private PooledView view() {
        var first =
                pooled.verdicts().isEmpty() ? null : pooled.verdicts().get(0).outcome();
        var parts = new ArrayList<Group>();
        var others = new ArrayList<Group>();
        int number = 0;
        for (var effect : pooled.effects()) {
            (effect.outcome().equals(first) ? parts : others).add(part(effect, "effect-" + ++number));
        }
        return new PooledView(
                Report.style(),
                pooled.trials() == 1 ? "What one trial showed" : "What " + pooled.trials() + " trials showed together",
                facts(),
                pooled.verdicts().stream()
                        .map(v -> new Card(v.factor(), v.verdict(), Digits.kept(v.sentence())))
                        .toList(),
                parts,
                new Group(
                        "left-out",
                        "What was left out",
                        "",
                        "These would have made the answer less sure than it looks.",
                        false,
                        List.of(),
                        List.of(tables.leftOut()),
                        List.of()),
                pooled.notes(),
                groups(others),
                methods(),
                Cautions.ALL,
                pooled.fairtray());
    }

    private List<Fact> facts() {
        var facts = new ArrayList<Fact>();
        facts.add(new Fact("Trials", Digits.whole(pooled.trials())));
        facts.add(new Fact("Farms", Digits.whole(pooled.farms())));
        facts.add(new Fact("Trays", Digits.whole(pooled.trays())));
        var outcomes = pooled.verdicts().stream()
                .map(Pooled.Verdict::outcome)
                .distinct()
                .toList();
        if (!outcomes.isEmpty()) {
            facts.add(new Fact("Asked", String.join(", ", outcomes)));
        }
        if (!pooled.leftOut().isEmpty()) {
            facts.add(new Fact(
                    "Left out", Digits.counted(pooled.leftOut().size(), "time", "times") + ", with reasons below"));
        }
        return facts;
    }

    private Group part(Pooled.Effect effect, String id) {
        var figures = new PooledFigures(effect, id);
        var more = Stream.of(figures.cumulative(), figures.leaveOneOut(), figures.funnel())
                .flatMap(Optional::stream)
                .toList();
        return new Group(
                id,
                PooledTables.pair(effect) + ": " + effect.outcome(),
                "",
                reading(effect),
                false,
                List.of(figures.trials()),
                List.of(tables.trials(effect, id)),
                List.of(
                        views(id, more, effect),
                        new Group(
                                id + "-why",
                                "Why trials may differ",
                                "crop, medium, temperature",
                                "Growers chose these; nobody dealt them out by chance. What goes with an effect needn’t have made"
                                        + " it.",
                                false,
                                List.of(),
                                tables.moderators(effect, id),
                                List.of()),
                        new Group(
                                id + "-exact",
                                "For statisticians",
                                "both ways of pooling",
                                "",
                                true,
                                List.of(),
                                List.of(tables.ways(effect, id)),
                                List.of())));
    }

    private static Group views(String id, List<Figure> more, Pooled.Effect effect) {
        var small = effect.smallStudies();
        return new Group(
                id + "-views",
                "How firm it is",
                "trial by trial, without each, small and large",
                small == null ? "" : small.sentence(),
                false,
                more,
                List.of(),
                List.of());
    }

    private static String reading(Pooled.Effect effect) {
        if (effect.againstRate() == null) {
            return "";
        }
        return "Points are those that the effect makes of " + Digits.percent(effect.againstRate())
                + ", the mean rate with " + PooledTables.level(effect, effect.against()) + ".";
    }

    private List<Group> groups(List<Group> others) {
        var groups = new ArrayList<Group>();
        groups.add(new Group(
                "slopes",
                "The change with each unit",
                "numbers only",
                "",
                false,
                List.of(),
                List.of(tables.slopes()),
                List.of()));
        groups.add(new Group(
                "also",
                "Also counted",
                "",
                "These were not the trials’ question. Take them as hints.",
                false,
                List.of(),
                List.of(tables.effects("also-effects", false)),
                others));
        groups.add(new Group(
                "used",
                "The trials",
                "",
                "",
                false,
                List.of(),
                List.of(tables.used(), tables.conditions()),
                List.of()));
        groups.add(new Group(
                "exact",
                "For statisticians",
                "",
                "",
                true,
                List.of(),
                List.of(tables.effects("all-effects", true)),
                List.of()));
        return groups;
    }

    private static List<String> methods() {
        return List.of(
                "Each trial was analysed by itself, as its own report has it: levels averaged over its other factors, with a"
                        + " standard error that knows how much its trays differ and is never smaller than seeds alone would"
                        + " make it. These effects were pooled as random effects: the variance between trials by REML, the"
                        + " interval of the mean by Hartung and Knapp, that of another trial’s effect by t with trials − 1"
                        + " degrees of freedom. A verdict takes the larger of that and the plain standard error.",
                "Beside it all trays were put into one mixed logistic model with farms, the effect’s differences between"
                        + " farms, what else trays stand in, and trays at random.",
                "Trials that the audit calls confounded, not repeated, patterned or not randomised were left out of what that"
                        + " touches. Nothing keeps growers from sharing only what pleased them: the view of small and large"
                        + " trials can give a hint of that and no more.");
    }
}
