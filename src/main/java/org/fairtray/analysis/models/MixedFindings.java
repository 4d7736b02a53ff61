package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.fairtray.design.Generator;
import org.fairtray.design.Term;
import org.fairtray.findings.Logistic;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.MixedLogisticFit;
import org.fairtray.statistics.logistic.ParametricBootstrap;

/** The logistic model with normal random intercepts for every place level that can have them, and for the tray. */
final class MixedFindings {
    private static final String STATISTIC = "likelihood ratio";

    private final CountFits fits;
    private final Bootstrap bootstrap;
    private final MixedModels models;
    private final Removals<MixedLogisticFit> mixed;

    private MixedFindings(CountFits fits, Bootstrap bootstrap) {
        this.fits = fits;
        this.bootstrap = bootstrap;
        this.models = MixedModels.of(fits.cells());
        this.mixed = new Removals<>(
                fits.structure().terms(),
                some -> MixedLogisticFit.of(models.of(some), fits.counts(), models.groupings()));
    }

    /**
     * The fit written out; empty where it doesn't come to rest.
     *
     * @throws CancellationException if the thread is interrupted during a bootstrap; it then still is
     */
    static Optional<Logistic.Mixed> of(CountFits fits, double alpha, Bootstrap bootstrap) {
        return new MixedFindings(fits, bootstrap).all(alpha);
    }

    private Optional<Logistic.Mixed> all(double alpha) {
        var terms = fits.structure().terms();
        var fit = mixed.all();
        if (!fit.settled()) {
            return Optional.empty();
        }
        var names = fits.structure().strataNames();
        var deviations = new LinkedHashMap<String, Double>();
        var atZero = new ArrayList<String>();
        for (int s = 0; s < names.size(); s++) {
            deviations.put(names.get(s), fit.standardDeviations()[s]);
            if (fit.atZero(s)) {
                atZero.add(names.get(s));
            }
        }
        return Optional.of(new Logistic.Mixed(
                terms.stream().flatMap(t -> test(t).stream()).toList(),
                LogisticFindings.coefficients(models.all(), fit.estimates(), 1, Tail.normalQuantile(1 - alpha / 2)),
                deviations,
                atZero,
                fit.logLikelihood()));
    }

    private Optional<Logistic.Term> test(Term term) {
        return models.pair(term).map(pair -> test(term, pair));
    }

    private Logistic.Term test(Term term, MixedModels.Pair pair) {
        double ratio = Math.max(
                0, 2 * (mixed.with(term).logLikelihood() - mixed.without(term).logLikelihood()));
        double p = Tail.chiSquared(ratio, pair.df());
        return bootstrap.wanted()
                ? new Logistic.Term.Bootstrapped(
                        term.name(), term.factors(), pair.df(), STATISTIC, ratio, p, bootstrapP(term, pair))
                : new Logistic.Term.Plain(term.name(), term.factors(), pair.df(), STATISTIC, ratio, p);
    }

    private Double bootstrapP(Term term, MixedModels.Pair pair) {
        var found = ParametricBootstrap.of(
                pair.smaller(),
                pair.larger(),
                fits.counts(),
                models.groupings(),
                bootstrap.draws(),
                Generator.of(bootstrap.seed()),
                done -> bootstrap.progress().accept(term.name(), done));
        if (!found.complete()) {
            throw new CancellationException("stopped in the bootstrap of " + term.name());
        }
        return found.draws() == 0 ? null : Double.valueOf(found.p());
    }
}
