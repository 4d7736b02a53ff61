package org.fairtray.report;

import static org.fairtray.report.OutcomeTables.number;
import static org.fairtray.report.OutcomeTables.text;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Findings.Anova;
import org.fairtray.findings.Findings.AnovaTerm;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Stratum;
import org.fairtray.findings.Logistic;
import org.fairtray.report.pages.Table;
import org.fairtray.report.pages.Table.Column;

/** The tables for a statistician: tests, analysis of variance, logistic models. */
final class ModelTables {
    private final Names names;
    private final OutcomeFindings outcome;
    private final String id;

    ModelTables(Names names, OutcomeFindings outcome, String id) {
        this.names = names;
        this.outcome = outcome;
        this.id = id;
    }

    List<Table> all() {
        var tables = new ArrayList<Table>();
        if (outcome.anova() == null) {
            return tables;
        }
        tables.add(tests());
        tables.add(anova());
        tables.add(variances());
        if (outcome.logistic() != null) {
            outcome.logistic().fits().forEach((name, fit) -> {
                tables.add(terms(name, fit));
                tables.add(coefficients(name, fit));
            });
        }
        return tables;
    }

    private Table tests() {
        var rows = outcome.tests().stream()
                .map(t -> List.of(
                        t.term(),
                        t.stratum() == null ? Digits.NOT_AVAILABLE : t.stratum(),
                        Digits.whole(t.df()),
                        Digits.df(t.denominatorDf()),
                        Digits.statistic(t.statistic(), t.value()),
                        Digits.p(t.p()),
                        Digits.measure(t.dispersion())))
                .toList();
        return new Table(
                id + "-table-tests",
                "Tests that the verdicts rest on",
                "Each change is judged against the spread of the things it was given to: whole stacks against stacks,"
                        + " trays against trays.",
                List.of(
                        text("Term"),
                        text("Judged against"),
                        number("df"),
                        number("Residual df"),
                        number("Statistic"),
                        number("p"),
                        number(Names.isCount(outcome) ? "Dispersion" : "Residual mean square")),
                rows);
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

    private Table terms(String name, Logistic.Fit fit) {
        var rows = fit.terms().stream()
                .map(t -> List.of(
                        t.term(), Digits.whole(t.df()), Digits.statistic(t.statistic(), t.value()), Digits.p(t.p())))
                .toList();
        return new Table(
                id + "-table-terms-" + idOf(name),
                "Logistic model, " + name + ": terms",
                used(name) + "Each term is left out of the model of all terms that don’t contain it. " + quality(fit),
                List.of(text("Term"), number("df"), number("Statistic"), number("p")),
                rows);
    }

    private Table coefficients(String name, Logistic.Fit fit) {
        var rows = fit.coefficients().stream()
                .map(c -> List.of(
                        c.name(),
                        Digits.measure(c.estimate()),
                        Digits.measure(c.standardError()),
                        Digits.range(Digits.measure(c.low()), Digits.measure(c.high()))))
                .toList();
        return new Table(
                id + "-table-coefficients-" + idOf(name),
                "Logistic model, " + name + ": coefficients",
                "On the log-odds scale, against the control; (base) is the control itself.",
                List.of(
                        text("Coefficient"),
                        number("Estimate"),
                        number("Standard error"),
                        number(names.sure() + " interval")),
                rows);
    }

    private String used(String name) {
        return name.equals(outcome.logistic().used()) ? "The effects rest on this fit. " : "Shown for comparison. ";
    }

    private static String quality(Logistic.Fit fit) {
        if (fit instanceof Logistic.Binomial binomial) {
            return "Log-likelihood " + Digits.statistic(binomial.logLikelihood()) + ", deviance "
                    + Digits.statistic(binomial.deviance()) + " and Pearson’s X² "
                    + Digits.statistic(binomial.pearson())
                    + " on " + Digits.counted(binomial.residualDf(), "degree", "degrees") + " of freedom.";
        }
        if (fit instanceof Logistic.Quasi quasi) {
            return "Dispersion " + Digits.statistic(quasi.dispersion()) + ".";
        }
        return "";
    }

    /** Logistic.Fit names are ours and plain, but an id must never hold a space. */
    private static String idOf(String name) {
        return name.replaceAll("[^A-Za-z0-9]+", "-");
    }
}
