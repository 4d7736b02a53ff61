package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.fairtray.findings.Findings.CountSummary;
import org.fairtray.findings.Findings.MeasureSummary;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Summary;
import org.fairtray.report.pages.Table;

/** What each treatment gave, and what was left out. */
final class SummaryTables {
    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;
    private final Amounts amounts;

    /** @param id what the ids of its tables begin with */
    SummaryTables(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
        this.amounts = Amounts.of(outcome);
    }

    /** Rates or means of the treatments; none where there are none. */
    List<Table> summary() {
        return Stream.of(Names.isCount(outcome) ? rates() : means())
                .filter(t -> !t.rows().isEmpty())
                .toList();
    }

    private Table rates() {
        var rows = new ArrayList<List<String>>();
        for (Summary summary : outcome.summary()) {
            if (summary instanceof CountSummary count) {
                rows.add(List.of(
                        names.treatment(count.treatment()),
                        Digits.whole(count.trays()),
                        Digits.whole(count.successes()),
                        Digits.whole(count.of()),
                        Digits.bare(count.rate()),
                        amounts.range(count.low(), count.high()),
                        made(count)));
            }
        }
        return new Table(
                id + "-table-rates",
                "In numbers: " + Names.outcome(outcome),
                "The true rate most likely lies between the two numbers of the " + names.sure() + " interval.",
                List.of(
                        text("Treatment"),
                        number("Trays"),
                        number(outcome.name()),
                        number("Of"),
                        number("Rate, %"),
                        number(names.sure() + " interval, %"),
                        text("Interval by")),
                rows);
    }

    private static String made(CountSummary count) {
        if (count.interval() == null) {
            return Digits.NOT_AVAILABLE;
        }
        boolean widened = count.dispersion() != null && count.dispersion() > 1;
        return count.interval() + (widened ? " (× " + Digits.statistic(count.dispersion()) + ")" : "");
    }

    private Table means() {
        var rows = new ArrayList<List<String>>();
        for (Summary summary : outcome.summary()) {
            if (summary instanceof MeasureSummary mean) {
                rows.add(List.of(
                        names.treatment(mean.treatment()),
                        Digits.whole(mean.trays()),
                        amounts.bare(mean.mean()),
                        orOneTray(mean, amounts.bare(mean.standardDeviation())),
                        orOneTray(mean, amounts.range(mean.low(), mean.high()))));
            }
        }
        return new Table(
                id + "-table-means",
                "In numbers: " + Names.outcome(outcome),
                "The true mean most likely lies between the two numbers of the " + names.sure() + " interval.",
                List.of(
                        text("Treatment"),
                        number("Trays"),
                        number("Mean"),
                        number("Standard deviation"),
                        number(names.sure() + " interval")),
                rows);
    }

    private static String orOneTray(Summary summary, String number) {
        boolean alone = number.equals(Digits.NOT_AVAILABLE) && summary.trays() < 2;
        return alone ? number + " (one tray)" : number;
    }

    /** Trays left out, and why. */
    Table leftOut() {
        return new Table(
                id + "-table-left-out",
                "Trays left out, and why",
                "A tray that was not read is not a zero, so it is left out of this outcome.",
                List.of(text("Tray"), sentence("Reason")),
                outcome.leftOutReasons().stream()
                        .map(l -> List.of(l.tray(), l.reason()))
                        .toList());
    }
}
