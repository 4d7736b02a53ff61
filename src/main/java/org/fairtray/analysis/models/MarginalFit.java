package org.fairtray.analysis.models;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.fairtray.findings.Logistic;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.logistic.LogisticFit;

/**
 * A count's logistic model for layouts that are not orthogonal: the linear model {@link PlaceModel} of the working
 * log-odds, fitted anew until its rates come to rest,
 *
 * <pre>  z = x'b + (y - mp) / (mp(1 - p)),   weight mp(1 - p),   logit p = x'b</pre>
 *
 * <p>Rates are those averaged over places (marginal quasi-likelihood), variances between units are estimated by REML, and
 * small numbers of units are allowed for by Kenward and Roger.
 *
 * <p>Sources: Breslow and Clayton (1993), Journal of the American Statistical Association 88, 9-25, section 2.3;
 * Wolfinger and O'Connell (1993), Journal of Statistical Computation and Simulation 48, 233-243.
 */
record MarginalFit(CountFits fits, PlaceModel place, Estimates seedsAlone) {
    private static final int MOST_STEPS = 50;
    private static final double AT_REST = 1e-8;

    /** Fits the counts; empty where the layout is orthogonal, or the steps don't come to rest. */
    static Optional<MarginalFit> of(CountFits fits) {
        var structure = fits.structure();
        if (!structure.isSpread()) {
            return Optional.empty();
        }
        var plain = Model.withoutBlocks(fits.cells(), structure.terms());
        double[] rates = LogisticFit.of(plain.matrix(), fits.counts()).rates();
        for (int step = 0; step < MOST_STEPS; step++) {
            double[] weights = weights(fits.counts(), rates);
            var place = PlaceModel.of(fits.cells(), working(fits.counts(), rates, weights), weights);
            if (place.isEmpty()) {
                return Optional.empty();
            }
            double[] next = rates(place.get());
            if (apart(rates, next) < AT_REST) {
                return Optional.of(new MarginalFit(fits, place.get().forVerdicts(), seedsAlone(place.get(), weights)));
            }
            rates = next;
        }
        return Optional.empty();
    }

    private static double[] weights(List<Count> counts, double[] rates) {
        var weights = new double[rates.length];
        for (int i = 0; i < rates.length; i++) {
            weights[i] = counts.get(i).trials() * rates[i] * (1 - rates[i]);
        }
        return weights;
    }

    private static double[] working(List<Count> counts, double[] rates, double[] weights) {
        var working = new double[rates.length];
        for (int i = 0; i < rates.length; i++) {
            double rest = counts.get(i).successes() - counts.get(i).trials() * rates[i];
            working[i] = Math.log(rates[i] / (1 - rates[i])) + rest / weights[i];
        }
        return working;
    }

    private static double[] rates(PlaceModel place) {
        var matrix = place.model().matrix();
        var rates = new double[matrix.height()];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = LogisticFit.rate(place.fit().estimates().combination(matrix.row(i)));
        }
        return rates;
    }

    private static double apart(double[] one, double[] other) {
        double most = 0;
        for (int i = 0; i < one.length; i++) {
            most = Math.max(most, Math.abs(one[i] - other[i]));
        }
        return most;
    }

    private static Estimates seedsAlone(PlaceModel place, double[] weights) {
        var matrix = place.model().matrix();
        var coefficients = new double[matrix.width()];
        Arrays.setAll(coefficients, j -> place.fit().estimates().coefficient(j));
        return new Estimates(
                coefficients,
                Cholesky.of(matrix.products(weights)).orElseThrow().inverse());
    }

    /**
     * The fit as the one that is used.
     *
     * @param ofRates the analysis of variance, which must agree before a verdict is "changed"
     */
    FitChoice choice(Yardstick ofRates, double alpha) {
        var own = new VarianceYardstick(
                place, Optional.of(seedsAlone), t -> fits.meanChange(t).map(StratumYardstick.MeanChange::value));
        var yardstick = new AgreedYardstick(own, ofRates);
        return new FitChoice(
                "marginal",
                "The layout is not orthogonal, so what is known within units and between them is put together: a logistic"
                        + " model with random places, its variances by REML, its tests by Kenward and Roger.",
                yardstick,
                new Predictor(place.model(), place.fit().estimates(), true),
                Optional.of(findings(alpha)));
    }

    private Logistic.Marginal findings(double alpha) {
        var names = place.model().matrix().names();
        var coefficients = new Logistic.Coefficient[names.size()];
        for (int j = 0; j < coefficients.length; j++) {
            var unit = new double[coefficients.length];
            unit[j] = 1;
            var found = place.tests().estimate(unit, 1 - alpha);
            coefficients[j] = new Logistic.Coefficient(
                    names.get(j), found.estimate(), found.standardError(), found.low(), found.high());
        }
        var terms = fits.structure().terms().stream()
                .flatMap(t -> place.test(t).stream()
                        .<Logistic.Term>map(
                                f -> new Logistic.Term.Plain(t.name(), t.factors(), f.df(), "f", f.f(), f.p())))
                .toList();
        return new Logistic.Marginal(terms, List.of(coefficients), place.variances(), place.residualVariance());
    }
}
