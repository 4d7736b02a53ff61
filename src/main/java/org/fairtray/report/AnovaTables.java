package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Findings.Anova;
import org.fairtray.findings.Findings.AnovaTerm;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Stratum;
import org.fairtray.report.pages.Table;
import org.fairtray.report.pages.Table.Column;

/** Analysis of variance and variance components. */
final class AnovaTables {
    private final OutcomeFindings outcome;
    private final String id;

    AnovaTables(OutcomeFindings outcome, String id) {
        this.outcome = outcome;
        this.id = id;
    }

    /** The table of the analysis of variance, and the variance components of a mixed model. */
    List<Table> all() {
        return outcome.anova() == null ? List.of() : List.of(anova(), variances());
    }

    private Table anova() {
        var anova = outcome.anova();
        boolean strata = anova.terms() == null;
        boolean efficiency = strata
                && anova.strata().stream()
                        .flatMap(s -> s.terms().stream())
                        .anyMatch(t -> t.efficiency() != null && t.efficiency() < 1 - 1e-9);
        var rows = new ArrayList<List<String>>();
        if (strata) {
            anova.strata().forEach(s -> rows.addAll(rows(s, efficiency)));
        } else {
            anova.terms().forEach(t -> rows.add(row("", t, false)));
        }
        return new Table(
                id + "-table-anova", caption(anova), reading(anova, efficiency), columns(strata, efficiency), rows);
    }

    private String caption(Anova anova) {
        return "Analysis of variance, "
                + (Names.isCount(outcome) ? anova.scale() + " scale" : "of the measure as it is")
                + (anova.terms() == null ? ", by stratum" : ", mixed model");
    }

    private static String reading(Anova anova, boolean efficiency) {
        var sentence = anova.terms() == null
                ? "A term is tested against what is left over in its own stratum."
                : "The layout is not balanced, so each term is tested once in a mixed model.";
        return sentence
                + (efficiency ? " Efficiency is the share of the information on a term that lies in that stratum." : "")
                + (anova.notes().isEmpty() ? "" : " " + String.join(" ", anova.notes()));
    }

    private static List<Column> columns(boolean strata, boolean efficiency) {
        var columns = new ArrayList<Column>();
        columns.add(text("Term"));
        if (strata) {
            columns.add(text("Stratum"));
        }
        columns.addAll(List.of(number("df"), number("Sum of squares"), number("Mean square"), number("F")));
        columns.addAll(List.of(number("Residual df"), number("p")));
        if (efficiency) {
            columns.add(number("Efficiency"));
        }
        return columns;
    }

    private static List<List<String>> rows(Stratum stratum, boolean efficiency) {
        var rows = new ArrayList<List<String>>();
        stratum.terms().forEach(t -> rows.add(row(stratum.stratum(), t, efficiency)));
        var residual = stratum.residual();
        if (residual != null) {
            var row = new ArrayList<>(List.of(
                    "residual",
                    stratum.stratum(),
                    Digits.whole(residual.df()),
                    Digits.fine(residual.sumOfSquares()),
                    Digits.fine(residual.meanSquare()),
                    "",
                    "",
                    ""));
            if (efficiency) {
                row.add("");
            }
            rows.add(row);
        }
        return rows;
    }

    private static List<String> row(String stratum, AnovaTerm term, boolean efficiency) {
        var row = new ArrayList<String>();
        row.add(term.term());
        if (!stratum.isEmpty()) {
            row.add(stratum);
        }
        row.addAll(List.of(
                Digits.whole(term.df()),
                Digits.fine(term.sumOfSquares()),
                Digits.fine(term.meanSquare()),
                Digits.statistic(term.f()),
                Digits.df(term.denominatorDf()),
                Digits.p(term.p())));
        if (efficiency) {
            row.add(Digits.measure(term.efficiency()));
        }
        return row;
    }

    private Table variances() {
        var rows = new ArrayList<List<String>>();
        if (outcome.anova().variances() != null) {
            outcome.anova().variances().forEach((level, v) -> rows.add(List.of(level, Digits.fine(v))));
        }
        return new Table(
                id + "-table-variances",
                "Variance components",
                "How much trays differ because of each level of place, and by themselves.",
                List.of(text("Between"), number("Variance")),
                rows);
    }
}
