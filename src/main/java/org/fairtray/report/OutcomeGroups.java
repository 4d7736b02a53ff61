package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.OutcomeView.Figure;
import org.fairtray.report.pages.Table;

/** What is folded away under an outcome's verdicts: the grower's groups first, the statistician's last. */
final class OutcomeGroups {
    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;

    /** @param id what the ids of its groups and tables begin with */
    OutcomeGroups(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
    }

    /** Groups in the order of reading, those with nothing to show left out. */
    List<Group> all(List<Figure> days, List<Figure> checks) {
        return Stream.of(changes(), speed(days), costs(), soundness(checks), statistics())
                .filter(g -> !g.isEmpty())
                .toList();
    }

    private Group changes() {
        var effects = new EffectTables(names, outcome, id);
        var trends = new TrendTables(names, outcome, id);
        return new Group(
                id + "-changes",
                "What each change did",
                "",
                "Each line is averaged over the other factors.",
                false,
                List.of(),
                List.of(effects.effects(), effects.pairs(), trends.trends(), trends.best(), trends.asGoodAs()),
                List.of());
    }

    private Group speed(List<Figure> days) {
        var speed = outcome.speed();
        var tables = speed == null ? null : new SpeedTables(names, speed, id);
        return new Group(
                id + "-speed",
                "How fast",
                "",
                days.isEmpty()
                        ? ""
                        : "In the charts all trays of a treatment are added up; a day without a reading has no mark.",
                false,
                days,
                tables == null ? List.of() : tables.forGrowers(),
                tables == null ? List.of() : List.of(tables.model()));
    }

    private Group costs() {
        return new Group(
                id + "-costs",
                "What it costs",
                "",
                "",
                false,
                List.of(),
                new CostTable(names, outcome.costs(), id).all(),
                List.of());
    }

    private Group soundness(List<Figure> checks) {
        var sound = new SoundnessTable(outcome.soundness(), id);
        return new Group(
                id + "-sound",
                "Are the data sound?",
                sound.hint(),
                "",
                false,
                checks,
                List.of(sound.table(), new SummaryTables(names, outcome, id).leftOut()),
                List.of());
    }

    private Group statistics() {
        var tests = new TestTables(outcome, id);
        var tables = new ArrayList<Table>(List.of(tests.tests(), tests.rerandomised()));
        tables.addAll(new AnovaTables(outcome, id).all());
        var effects = new EffectTables(names, outcome, id);
        tables.add(effects.effectsInFull());
        tables.add(effects.pairsInFull());
        var logistic = outcome.logistic();
        return new Group(
                id + "-statistics",
                "For statisticians",
                "",
                logistic == null ? "" : FitTables.choice(logistic),
                true,
                List.of(),
                tables,
                logistic == null ? List.of() : new FitTables(names, logistic, id).all());
    }
}
