package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.List;
import java.util.stream.Collectors;
import org.fairtray.findings.AsGoodAs;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Trend;
import org.fairtray.report.pages.Table;

/** How an outcome follows numeric levels, which level is best, and which are as good as the control. */
final class TrendTables {
    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;
    private final Amounts amounts;

    TrendTables(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
        this.amounts = Amounts.of(outcome);
    }

    /** Orthogonal polynomials by factor; without those of two levels, whose line is their difference once more. */
    Table trends() {
        var components = outcome.trends().stream().collect(Collectors.groupingBy(Trend::factor, Collectors.counting()));
        return new Table(
                id + "-table-trends",
                "More of it: does it help steadily?",
                "Linear is the change for each unit more; the others say how the line bends. A p near 0 means that chance"
                        + " alone would hardly do it.",
                List.of(
                        text("Factor"),
                        text("Shape"),
                        sentence("In words"),
                        number(Names.isCount(outcome) ? "Estimate, points" : "Estimate"),
                        number(names.sure() + " interval"),
                        number("df"),
                        number("p")),
                outcome.trends().stream()
                        .filter(t -> components.get(t.factor()) > 1)
                        .map(this::row)
                        .toList());
    }

    private List<String> row(Trend trend) {
        return List.of(
                trend.factor(),
                trend.component(),
                Digits.kept(trend.sentence()),
                coefficient(trend.estimate()),
                Digits.range(coefficient(trend.low()), coefficient(trend.high())),
                Digits.whole(trend.df()),
                Digits.p(trend.p()));
    }

    private String coefficient(Double value) {
        return Digits.measure(amounts.onAxis(value));
    }

    /** Tops of bent curves. */
    Table best() {
        return new Table(
                id + "-table-best",
                "The best level",
                "Where the curve is highest. Outside the levels that were tried it is a guess.",
                List.of(
                        text("Factor"),
                        number("Best level"),
                        number(names.sure() + " interval"),
                        text("Among the levels tried?"),
                        sentence("In words")),
                outcome.best().stream().map(this::row).toList());
    }

    private List<String> row(Trend.Best best) {
        return List.of(
                best.factor(),
                best.level() == null ? "none" : names.level(best.factor(), Digits.measure(best.level())),
                Digits.openRange(Digits.measure(best.low()), Digits.measure(best.high())),
                best.inside() ? "yes" : "no",
                Digits.kept(best.sentence()));
    }

    /** Levels held against the difference that would matter. */
    Table asGoodAs() {
        return new Table(
                id + "-table-as-good-as",
                "Just as good?",
                "Two questions at the difference that would matter: is the level not worse by so much, and not better by so"
                        + " much? A small p says yes.",
                List.of(
                        text("Change"),
                        text("Answer"),
                        sentence("In words"),
                        number(Names.isCount(outcome) ? "Would matter, points" : "Would matter"),
                        number("Interval of both"),
                        number("p, not worse"),
                        number("p, not better")),
                outcome.asGoodAs().stream().map(this::row).toList());
    }

    private List<String> row(AsGoodAs one) {
        return List.of(
                names.change(one.factor(), one.level(), one.against()),
                one.same() ? "as good" : one.notWorse() ? "not worse" : "open",
                Digits.kept(one.sentence()),
                amounts.bareDifference(one.margin()),
                amounts.differenceRange(one.low(), one.high()),
                Digits.p(one.pNotWorse()),
                Digits.p(one.pNotBetter()));
    }
}
