package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.report.pages.Table;
import org.fairtray.report.pages.Table.Column;

/** Differences between levels: for growers as they are, for statisticians with all that belongs to them. */
final class EffectTables {
    /** Forty levels make 780 pairs, which nobody reads on a page. */
    private static final int MOST_PAIRS = 200;

    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;
    private final boolean count;
    private final Amounts amounts;

    EffectTables(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
        this.count = Names.isCount(outcome);
        this.amounts = Amounts.of(outcome);
    }

    /** Every level against the control. */
    Table effects() {
        return table("effects", "What each change did against the control", "Control", crossing(), outcome.effects());
    }

    /** Every pair of levels. */
    Table pairs() {
        return table("pairs", "Every level against every other", "Other", crossing() + cut(), shownPairs());
    }

    /** What a statistician wants beside {@link #effects}. */
    Table effectsInFull() {
        return inFull("effects-in-full", "Changes against the control: where their p come from", "", outcome.effects());
    }

    /** What a statistician wants beside {@link #pairs}. */
    Table pairsInFull() {
        return inFull("pairs-in-full", "Pairs of levels: where their p come from", cut(), shownPairs());
    }

    private List<? extends Effect> shownPairs() {
        return outcome.pairs().stream().limit(MOST_PAIRS).toList();
    }

    private String cut() {
        int all = outcome.pairs().size();
        return all <= MOST_PAIRS
                ? ""
                : " The first " + MOST_PAIRS + " of " + all + " are shown; results.json holds them all.";
    }

    private static String crossing() {
        return "An interval that crosses zero leaves open which is better; the one for all together holds for all levels"
                + " of its factor at once.";
    }

    private Table table(String part, String caption, String against, String reading, List<? extends Effect> effects) {
        var unit = count ? ", %" : "";
        var columns = List.of(
                text("Change"),
                number((count ? "Rate" : "Mean") + unit),
                number(against + unit),
                number(count ? "Difference, points" : "Difference"),
                number(names.sure() + " interval, this one alone"),
                number(names.sure() + " interval, all together"),
                number("p, all together"),
                sentence("Adjusted by"));
        return new Table(
                id + "-table-" + part,
                caption,
                reading,
                columns,
                effects.stream().map(this::row).toList());
    }

    private List<String> row(Effect effect) {
        return List.of(
                names.effect(effect),
                amounts.bare(effect.value()),
                amounts.bare(effect.againstValue()),
                amounts.bareDifference(effect.difference()),
                amounts.differenceRange(effect.low(), effect.high()),
                amounts.differenceRange(effect.lowAdjusted(), effect.highAdjusted()),
                Digits.p(effect.pAdjusted()),
                orNotAvailable(effect.adjustment()));
    }

    private Table inFull(String part, String caption, String more, List<? extends Effect> effects) {
        var columns = new ArrayList<Column>(List.of(text("Change"), number("p alone"), sentence("p from")));
        columns.add(number("Interval for the verdict" + (count ? ", points" : "")));
        if (count) {
            columns.add(number("Odds ratio"));
            columns.add(number(names.sure() + " interval of it"));
        }
        return new Table(
                id + "-table-" + part,
                caption,
                "A verdict counts on an interval that is never narrower than "
                        + (count ? "seeds alone give." : "the trays give.")
                        + more,
                columns,
                effects.stream().map(this::rowInFull).toList());
    }

    private List<String> rowInFull(Effect effect) {
        var row = new ArrayList<String>(List.of(names.effect(effect), Digits.p(effect.p())));
        row.add(orNotAvailable(effect.pFrom()));
        row.add(amounts.differenceRange(effect.verdictLow(), effect.verdictHigh()));
        if (count && effect instanceof Effect.OnRate rate) {
            row.add(Digits.measure(rate.oddsRatio()));
            row.add(Digits.range(Digits.measure(rate.oddsLow()), Digits.measure(rate.oddsHigh())));
        }
        return row;
    }

    private static String orNotAvailable(String text) {
        return text == null || text.isBlank() ? Digits.NOT_AVAILABLE : text;
    }
}
