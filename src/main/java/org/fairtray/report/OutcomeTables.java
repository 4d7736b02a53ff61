package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings.CountSummary;
import org.fairtray.findings.Findings.MeasureSummary;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Summary;
import org.fairtray.report.pages.Table;
import org.fairtray.report.pages.Table.Column;

/** The tables a grower can follow: what each treatment gave, what each change did, what was left out. */
final class OutcomeTables {
    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;
    private final Amounts amounts;

    /** @param id what the ids of its tables begin with */
    OutcomeTables(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
        this.amounts = Amounts.of(outcome);
    }

    /** All tables of the outcome, those without rows left out. */
    List<Table> all() {
        var tables = new ArrayList<Table>();
        tables.add(summary());
        tables.add(effects());
        tables.addAll(new ModelTables(names, outcome, id).all());
        tables.add(leftOut());
        return tables.stream().filter(t -> !t.rows().isEmpty()).toList();
    }

    private Table summary() {
        return Names.isCount(outcome) ? rates() : means();
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
                "What each treatment gave: " + Names.outcome(outcome),
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
                "What each treatment gave: " + Names.outcome(outcome),
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

    private Table effects() {
        var rows = new ArrayList<List<String>>();
        for (Effect effect : outcome.effects()) {
            rows.add(effect instanceof Effect.OnRate rate ? rate(rate) : mean((Effect.OnMean) effect));
        }
        boolean count = Names.isCount(outcome);
        var columns = new ArrayList<>(List.of(
                text("Change"),
                number(count ? "Rate, %" : "Mean"),
                number(count ? "Control, %" : "Control"),
                number(count ? "Difference, points" : "Difference"),
                number(names.sure() + " interval")));
        if (count) {
            columns.add(number("Odds ratio"));
        }
        columns.addAll(List.of(number("p"), number("p adjusted"), text("p from"), text("Adjusted by")));
        return new Table(
                id + "-table-effects",
                "What each change did against the control",
                "Averaged over the other factors. An interval that crosses zero leaves open which is better.",
                columns,
                rows);
    }

    private List<String> rate(Effect.OnRate effect) {
        return List.of(
                names.effect(effect),
                amounts.bare(effect.rate()),
                amounts.bare(effect.againstRate()),
                amounts.bareDifference(effect.difference()),
                amounts.differenceRange(effect.low(), effect.high()),
                odds(effect),
                Digits.p(effect.p()),
                Digits.p(effect.pAdjusted()),
                orNotAvailable(effect.pFrom()),
                orNotAvailable(effect.adjustment()));
    }

    private static String odds(Effect.OnRate effect) {
        var range = Digits.range(Digits.measure(effect.oddsLow()), Digits.measure(effect.oddsHigh()));
        if (effect.oddsRatio() == null || range.equals(Digits.NOT_AVAILABLE)) {
            return Digits.measure(effect.oddsRatio());
        }
        return Digits.measure(effect.oddsRatio()) + " (" + range + ")";
    }

    private List<String> mean(Effect.OnMean effect) {
        return List.of(
                names.effect(effect),
                amounts.bare(effect.mean()),
                amounts.bare(effect.againstMean()),
                amounts.bareDifference(effect.difference()),
                amounts.differenceRange(effect.low(), effect.high()),
                Digits.p(effect.p()),
                Digits.p(effect.pAdjusted()),
                orNotAvailable(effect.pFrom()),
                orNotAvailable(effect.adjustment()));
    }

    private Table leftOut() {
        return new Table(
                id + "-table-left-out",
                "Trays left out, and why",
                "A tray that was not read is not a zero, so it is left out of this outcome.",
                List.of(text("Tray"), text("Reason")),
                outcome.leftOutReasons().stream()
                        .map(l -> List.of(l.tray(), l.reason()))
                        .toList());
    }

    static Column text(String head) {
        return new Column(head, false);
    }

    static Column number(String head) {
        return new Column(head, true);
    }

    static String orNotAvailable(String text) {
        return text == null || text.isBlank() ? Digits.NOT_AVAILABLE : text;
    }
}
