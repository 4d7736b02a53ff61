package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.findings.Logistic;
import org.fairtray.findings.Numbers;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.BetaBinomialFit;
import org.fairtray.statistics.logistic.Dispersion;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.logistic.PenalisedFit;
import org.fairtray.trial.Treatment;

/** Every logistic fit of a count that can be had, written out. */
public final class LogisticFindings {
    /** Trays times squared columns from which fits that only stand beside the one used would take seconds. */
    private static final long LARGE = 2_000_000;

    /** The same for intervals by profile likelihood, each end of which takes many fits. */
    private static final long LARGE_FOR_PROFILES = 100_000;

    private final CountFits fits;
    private final double alpha;
    private final double normal;

    private LogisticFindings(CountFits fits, double alpha) {
        this.fits = fits;
        this.alpha = alpha;
        this.normal = Tail.normalQuantile(1 - alpha / 2);
    }

    /**
     * All fits, with what is said of the one that is used.
     *
     * @throws java.util.concurrent.CancellationException if the thread is interrupted during a bootstrap; it then still is
     */
    public static Logistic of(CountFits fits, double alpha, FitChoice choice, Bootstrap bootstrap) {
        return new LogisticFindings(fits, alpha).all(choice, bootstrap);
    }

    private Logistic all(FitChoice choice, Bootstrap bootstrap) {
        Map<String, Logistic.Fit> all = new LinkedHashMap<>();
        if (fits.isFinite()) {
            var fit = fits.plain();
            all.put("binomial", binomial(fit));
            if (fit.residualDf() > 0) {
                all.put("quasi", quasi(fit));
                if (work() <= LARGE) {
                    betaBinomial(all);
                }
                choice.marginal().ifPresent(m -> all.put("marginal", m));
                MixedFindings.of(fits, alpha, bootstrap).ifPresent(m -> all.put("mixed", m));
            }
        }
        if (!fits.isFinite() || work() <= LARGE) {
            all.put("penalised", penalised());
        }
        return new Logistic(choice.used(), choice.why(), separationInWords(), all);
    }

    private long work() {
        return (long) matrix().height() * matrix().width() * matrix().width();
    }

    private ModelMatrix matrix() {
        return fits.model().matrix();
    }

    private List<Count> counts() {
        return fits.counts();
    }

    private Logistic.Binomial binomial(LogisticFit fit) {
        var terms = fits.changes().stream()
                .map(c -> term(c, "likelihood ratio", c.value()))
                .toList();
        return new Logistic.Binomial(
                terms,
                coefficients(matrix(), fit.estimates(), 1, normal),
                fit.logLikelihood(),
                fit.deviance(),
                fit.residualDf(),
                Dispersion.pearson(counts(), fit.rates()));
    }

    private Logistic.Quasi quasi(LogisticFit fit) {
        int rest = fit.residualDf();
        double dispersion = Dispersion.pearson(counts(), fit.rates()) / rest;
        var terms =
                fits.changes().stream().map(c -> quasiTerm(c, dispersion, rest)).toList();
        return new Logistic.Quasi(
                dispersion,
                terms,
                coefficients(matrix(), fit.estimates(), dispersion, Tail.tQuantile(1 - alpha / 2, rest)));
    }

    /** With a dispersion of 0, where trays fit exactly, there is nothing to divide by. */
    private static Logistic.Term quasiTerm(CountFits.TermChange change, double dispersion, int rest) {
        Double f = Numbers.orNull(change.value() / change.df() / dispersion);
        return new Logistic.Term.Plain(
                change.term().name(),
                change.term().factors(),
                change.df(),
                "f",
                f,
                f == null ? null : Double.valueOf(Tail.f(f, change.df(), rest)));
    }

    private void betaBinomial(Map<String, Logistic.Fit> all) {
        var alike = fits.fits(BetaBinomialFit::of);
        var fit = alike.all();
        if (fit.settled() && fit.estimates().isPresent()) {
            Interval interval = fit.correlationInterval(1 - alpha);
            all.put(
                    "beta_binomial",
                    new Logistic.BetaBinomial(
                            terms(alike),
                            coefficients(matrix(), fit.estimates().get(), 1, normal),
                            fit.correlation(),
                            interval.low(),
                            interval.high(),
                            fit.logLikelihood()));
        }
    }

    private List<Logistic.Term> terms(Removals<BetaBinomialFit> alike) {
        return fits.changes().stream()
                .map(c -> term(
                        c,
                        "likelihood ratio",
                        2
                                * (alike.with(c.term()).logLikelihood()
                                        - alike.without(c.term()).logLikelihood())))
                .toList();
    }

    private Logistic.Penalised penalised() {
        var fit = fits.penalised();
        var terms = fits.changes().stream()
                .map(c -> term(
                        c, "penalised likelihood ratio", fits.isFinite() ? fits.penalisedRatio(c.term()) : c.value()))
                .toList();
        boolean byProfile = work() <= LARGE_FOR_PROFILES;
        return new Logistic.Penalised(
                terms,
                byProfile ? profiled(fit) : coefficients(matrix(), fit.estimates(), 1, normal),
                byProfile ? "profile" : "wald",
                fit.penalisedLogLikelihood());
    }

    private List<Logistic.Coefficient> profiled(PenalisedFit fit) {
        var profiled = new ArrayList<Logistic.Coefficient>();
        for (int j = 0; j < matrix().width(); j++) {
            var unit = new double[matrix().width()];
            unit[j] = 1;
            var interval = fit.interval(unit, 1 - alpha);
            profiled.add(new Logistic.Coefficient(
                    matrix().names().get(j),
                    fit.estimates().coefficient(j),
                    fit.estimates().standardError(j),
                    Numbers.orNull(interval.low()),
                    Numbers.orNull(interval.high())));
        }
        return profiled;
    }

    static Logistic.Term term(CountFits.TermChange change, String statistic, double value) {
        double positive = Math.max(0, value);
        return new Logistic.Term.Plain(
                change.term().name(),
                change.term().factors(),
                change.df(),
                statistic,
                positive,
                Tail.chiSquared(positive, change.df()));
    }

    /** The coefficients with intervals of a quantile times their errors, those widened by the root of the dispersion. */
    public static List<Logistic.Coefficient> coefficients(
            ModelMatrix matrix, Estimates estimates, double dispersion, double quantile) {
        var names = matrix.names();
        return IntStream.range(0, names.size())
                .mapToObj(j -> {
                    double b = estimates.coefficient(j);
                    double error = estimates.standardError(j) * Math.sqrt(dispersion);
                    return new Logistic.Coefficient(names.get(j), b, error, b - quantile * error, b + quantile * error);
                })
                .toList();
    }

    private String separationInWords() {
        if (fits.isFinite()) {
            return null;
        }
        var none = new LinkedHashMap<Map<String, String>, Count>();
        fits.separated()
                .forEach(i ->
                        none.merge(fits.structure().trays().get(i).treatment().levels(), counts().get(i), Count::plus));
        var words = none.entrySet().stream()
                .map(e -> new Treatment(e.getKey()).describe() + " ("
                        + e.getValue().successes() + " of " + e.getValue().trials() + ")")
                .toList();
        return "All or none came out in: " + String.join("; ", words)
                + ". The odds there are 0 or infinite, so only the penalised fit is shown, whose estimates are finite.";
    }
}
