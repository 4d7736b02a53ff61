package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.fairtray.findings.Logistic;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.Table;

/** Each logistic fit in a group of its own: how well it fits, its terms, its coefficients. */
final class FitTables {
    private static final String LOG_ODDS = "On the log-odds scale, against the control; (base) is the control itself.";

    private final Names names;
    private final Logistic logistic;
    private final String id;

    FitTables(Names names, Logistic logistic, String id) {
        this.names = names;
        this.logistic = logistic;
        this.id = id;
    }

    /** Which fit is used, and why. */
    static String choice(Logistic logistic) {
        return (logistic.used() == null
                        ? "No logistic model could be used. "
                        : "Logistic model used: " + written(logistic.used()) + ". ")
                + logistic.why();
    }

    List<Group> all() {
        var groups = new ArrayList<Group>();
        logistic.fits().forEach((name, fit) -> groups.add(group(name, fit)));
        return groups;
    }

    private Group group(String name, Logistic.Fit fit) {
        return new Group(
                id + "-fit-" + idOf(name),
                "Logistic model, " + written(name),
                name.equals(logistic.used()) ? "the effects rest on it" : "for comparison",
                quality(fit),
                true,
                List.of(),
                List.of(
                        terms(
                                id + "-table-terms-" + idOf(name),
                                "Logistic model, " + written(name) + ": terms",
                                fit.terms()),
                        coefficients(
                                id + "-table-coefficients-" + idOf(name),
                                "Logistic model, " + written(name) + ": coefficients",
                                LOG_ODDS,
                                names.sure(),
                                fit.coefficients())),
                List.of());
    }

    static Table terms(String id, String caption, List<Logistic.Term> terms) {
        return new Table(
                id,
                caption,
                "Each term is left out of the model of all terms that don’t contain it.",
                List.of(text("Term"), number("df"), number("Statistic"), number("p")),
                terms.stream()
                        .map(t -> List.of(
                                t.term(),
                                Digits.whole(t.df()),
                                Digits.statistic(t.statistic(), t.value()),
                                Digits.p(t.p())))
                        .toList());
    }

    static Table coefficients(
            String id, String caption, String reading, String sure, List<Logistic.Coefficient> coefficients) {
        return new Table(
                id,
                caption,
                reading,
                List.of(text("Coefficient"), number("Estimate"), number("Standard error"), number(sure + " interval")),
                coefficients.stream()
                        .map(c -> List.of(
                                c.name(),
                                Digits.measure(c.estimate()),
                                Digits.measure(c.standardError()),
                                Digits.range(Digits.measure(c.low()), Digits.measure(c.high()))))
                        .toList());
    }

    private String quality(Logistic.Fit fit) {
        if (fit instanceof Logistic.Binomial binomial) {
            return "Log-likelihood " + Digits.statistic(binomial.logLikelihood()) + ", deviance "
                    + Digits.statistic(binomial.deviance()) + " and Pearson’s X² "
                    + Digits.statistic(binomial.pearson())
                    + " on " + Digits.counted(binomial.residualDf(), "degree", "degrees") + " of freedom.";
        }
        if (fit instanceof Logistic.Quasi quasi) {
            return "Dispersion " + Digits.statistic(quasi.dispersion()) + ".";
        }
        if (fit instanceof Logistic.BetaBinomial beta) {
            return "Correlation of two seeds of one tray " + Digits.measure(beta.correlation()) + ", " + names.sure()
                    + " interval "
                    + Digits.range(Digits.measure(beta.correlationLow()), Digits.measure(beta.correlationHigh()))
                    + ". Log-likelihood " + Digits.statistic(beta.logLikelihood()) + ".";
        }
        if (fit instanceof Logistic.Mixed mixed) {
            return mixed(mixed);
        }
        if (fit instanceof Logistic.Marginal marginal) {
            return "Variances on the log-odds scale: " + byLevel(marginal.variances()) + ". Dispersion between trays "
                    + Digits.statistic(marginal.dispersion()) + ".";
        }
        return "Penalised log-likelihood " + Digits.statistic(((Logistic.Penalised) fit).penalisedLogLikelihood())
                + ".";
    }

    private static String mixed(Logistic.Mixed mixed) {
        var zero = mixed.atZero().isEmpty()
                ? ""
                : " No spread beyond chance was found between units of " + String.join(", ", mixed.atZero())
                        + ": a zero means that it is too small to be seen, not that there is none.";
        return "Standard deviations on the log-odds scale: " + byLevel(mixed.standardDeviations()) + "." + zero
                + " Log-likelihood " + Digits.statistic(mixed.logLikelihood()) + ".";
    }

    private static String byLevel(Map<String, Double> amounts) {
        return amounts.entrySet().stream()
                .map(e -> e.getKey() + " " + Digits.measure(e.getValue()))
                .collect(Collectors.joining(", "));
    }

    private static String written(String name) {
        return name.replace('_', '-');
    }

    /** Names of fits are ours and plain, but an id must never hold a space. */
    private static String idOf(String name) {
        return name.replaceAll("[^A-Za-z0-9]+", "-");
    }
}
