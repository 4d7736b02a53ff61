package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;
import org.fairtray.statistics.strata.UnequalVariance;

/**
 * For counts near none or all, whose spread differs from treatment to treatment and follows no formula: each difference
 * of rates is held against what the units that make it up leave over themselves, each term is tested by the analysis of
 * variance on the plan's scale.
 */
final class UnequalYardstick implements Yardstick {
    /** A share this small is rounding. */
    private static final double ROUNDING = 1e-9;

    private final Structure structure;
    private final Yardstick odds;
    private final Yardstick variances;
    private final ModelMatrix matrix;
    private final Cholesky products;
    private final List<Optional<UnequalVariance>> strata = new ArrayList<>();
    private final double[] seedVariances;

    /**
     * @param odds serves for odds ratios
     * @param variances serves for tests
     */
    UnequalYardstick(CountFits fits, Yardstick odds, Yardstick variances) {
        this.structure = fits.structure();
        this.odds = odds;
        this.matrix = fits.model().matrix();
        var ones = new double[matrix.height()];
        Arrays.fill(ones, 1);
        this.products = Cholesky.of(matrix.products(ones)).orElseThrow();
        this.variances = variances;
        this.seedVariances = fits.counts().stream()
                .mapToDouble(UnequalYardstick::seedVariance)
                .toArray();
        double[] rates = fits.counts().stream().mapToDouble(Count::rate).toArray();
        for (int s = 0; s < structure.strata().size(); s++) {
            strata.add(UnequalVariance.of(structure.strata(), structure.decomposition(), s, rates));
        }
    }

    /** Rates are drawn a little towards a half, so that trays of 0 or 100 % don't claim to be without error. */
    private static double seedVariance(Count count) {
        double p = (count.successes() + 2.0) / (count.trials() + 4.0);
        return p * (1 - p) / count.trials();
    }

    @Override
    public Optional<Spread> spread(double[] gradient, double[] contrast) {
        double[] weights = weights(contrast);
        double whole = Vectors.squaredLength(weights);
        double least = 0;
        for (int i = 0; i < weights.length; i++) {
            least += weights[i] * weights[i] * seedVariances[i];
        }
        double variance = 0;
        double perDf = 0;
        for (int s = 0; s < strata.size(); s++) {
            if (structure.strata().share(s, weights) > ROUNDING * whole) {
                var part = strata.get(s).flatMap(u -> u.of(weights));
                if (part.isEmpty()) {
                    return odds.spread(gradient, contrast);
                }
                variance += part.get().variance();
                perDf += part.get().variance()
                        * part.get().variance()
                        / part.get().degreesOfFreedom();
            }
        }
        if (variance > 0) {
            return Optional.of(new Spread(variance, variance * variance / perDf, least));
        }
        double seeds = least;
        return odds.spread(gradient, contrast).map(o -> new Spread(seeds, o.degreesOfFreedom(), seeds));
    }

    /** What least squares gives each tray in a contrast. */
    private double[] weights(double[] contrast) {
        double[] solved = products.solve(contrast);
        var weights = new double[matrix.height()];
        for (int i = 0; i < weights.length; i++) {
            weights[i] = Vectors.dot(matrix.row(i), solved);
        }
        return weights;
    }

    @Override
    public Optional<Spread> oddsSpread(double[] contrast) {
        return odds.oddsSpread(contrast);
    }

    @Override
    public double correlation(double[] one, double[] other) {
        return odds.correlation(one, other);
    }

    @Override
    public Findings.TermTest test(Term term) {
        return variances.test(term);
    }
}
