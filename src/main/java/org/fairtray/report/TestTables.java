package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.List;
import java.util.Locale;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.TermTest;
import org.fairtray.findings.Rerandomised;
import org.fairtray.report.pages.Table;

/** The tests that verdicts rest on, and beside them what chance alone would have made. */
final class TestTables {
    private final OutcomeFindings outcome;
    private final String id;

    TestTables(OutcomeFindings outcome, String id) {
        this.outcome = outcome;
        this.id = id;
    }

    /** Each term against the units it was given to. */
    Table tests() {
        return of(
                id + "-table-tests",
                "Tests that the verdicts rest on",
                Names.isCount(outcome) ? "Dispersion" : "Residual mean square",
                outcome.tests());
    }

    static Table of(String id, String caption, String dispersion, List<TermTest> tests) {
        return new Table(
                id,
                caption,
                "Each change is judged against the spread of the things it was given to: whole stacks against stacks,"
                        + " trays against trays. The p of a verdict takes no spread for less than chance alone gives; of counts it is the"
                        + " larger of this test’s and the analysis of variance’s.",
                List.of(
                        text("Term"),
                        text("Judged against"),
                        number("df"),
                        number("Residual df"),
                        number("Statistic"),
                        number("p"),
                        number("p of the verdict"),
                        number(dispersion)),
                tests.stream().map(TestTables::row).toList());
    }

    private static List<String> row(TermTest test) {
        return List.of(
                test.term(),
                test.stratum() == null ? Digits.NOT_AVAILABLE : test.stratum(),
                Digits.whole(test.df()),
                Digits.df(test.denominatorDf()),
                Digits.statistic(test.statistic(), test.value()),
                Digits.p(test.p()),
                Digits.p(test.pVerdict()),
                Digits.measure(test.dispersion()));
    }

    /** Re-randomisation, with the model's p of the same term beside it. */
    Table rerandomised() {
        return new Table(
                id + "-table-rerandomised",
                "Could the draw alone have done it?",
                "The readings stay where they are and the draw is made again, many times: p is the share of draws in which"
                        + " a term looks as large. It should be near the model’s p.",
                List.of(
                        text("Term"),
                        number("p by draws"),
                        number("p of the verdict"),
                        number("Smallest p possible"),
                        number("Draws"),
                        text("Which draws"),
                        text("Scheme"),
                        number("Observed"),
                        sentence("What was done")),
                outcome.rerandomisation().stream().map(this::row).toList());
    }

    private List<String> row(Rerandomised chance) {
        return List.of(
                chance.term(),
                Digits.p(chance.p()),
                modelP(chance.term()),
                Digits.p(chance.smallestP()),
                String.format(Locale.ROOT, "%,d", chance.arrangements()),
                chance.exact() ? "all there are" : "drawn by chance",
                chance.scheme(),
                Digits.statistic(chance.statistic(), chance.observed()),
                chance.sentence());
    }

    private String modelP(String term) {
        return outcome.tests().stream()
                .filter(t -> t.term().equals(term))
                .map(t -> Digits.p(t.pVerdict()))
                .findFirst()
                .orElse(Digits.NOT_AVAILABLE);
    }
}
