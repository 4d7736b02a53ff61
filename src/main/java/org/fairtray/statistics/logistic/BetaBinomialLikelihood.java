package org.fairtray.statistics.logistic;

import java.util.List;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * The beta-binomial log-likelihood without its constants log C(m, y), of coefficients b and theta = rho / (1 - rho):
 *
 * <pre>  sum over trays of  sum over j < y of log(p + j theta) + sum over j < m - y of log(1 - p + j theta)
 *                     - sum over j < m of log(1 + j theta),   logit p = x'b</pre>
 *
 * <p>Source: Griffiths (1973), Biometrics 29, 637-648, formula (2), in Williams's (1975, Biometrics 31, 949-952) rates.
 */
final class BetaBinomialLikelihood {
    private final ModelMatrix model;
    private final List<Count> counts;

    BetaBinomialLikelihood(ModelMatrix model, List<Count> counts) {
        this.model = model;
        this.counts = counts;
    }

    /** Sums over all trays: the height, and per tray the derivatives by its log-odds, by theta, and by both. */
    private static final class Sums {
        private double value;
        private double byTheta;
        private double byThetaTwice;
        private final double[] byOdds;
        private final double[] curvature;
        private final double[] byBoth;

        Sums(int n) {
            byOdds = new double[n];
            curvature = new double[n];
            byBoth = new double[n];
        }

        void add(int i, Count count, double linear, double theta) {
            double p = LogisticFit.rate(linear);
            double slope = p * LogisticFit.rate(-linear);
            var up = RisingProduct.of(count.successes(), p, theta);
            var down = RisingProduct.of(count.trials() - count.successes(), LogisticFit.rate(-linear), theta);
            var all = RisingProduct.of(count.trials(), 1, theta);
            double byRate = up.byA() - down.byA();
            value += up.value() + down.value() - all.value();
            byTheta += up.byT() + down.byT() - all.byT();
            byThetaTwice += up.byTT() + down.byTT() - all.byTT();
            byOdds[i] = byRate * slope;
            curvature[i] = -(up.byAA() + down.byAA()) * slope * slope - byRate * slope * (1 - 2 * p);
            byBoth[i] = (up.byAT() - down.byAT()) * slope;
        }
    }

    private Sums sums(double[] place, double theta) {
        var sums = new Sums(model.height());
        for (int i = 0; i < model.height(); i++) {
            double linear = 0;
            for (int j = 0; j < model.width(); j++) {
                linear += model.row(i)[j] * place[j];
            }
            sums.add(i, counts.get(i), linear, theta);
        }
        return sums;
    }

    /** The surface over b, with theta held. Where it is not curved downwards, the curvature is that of rates as weights. */
    Ascent.Point held(double[] b, double theta) {
        var sums = sums(b, theta);
        double[][] curvature = model.products(sums.curvature);
        if (Cholesky.of(curvature).isEmpty()) {
            curvature = model.products(expected(b, theta));
        }
        return new Ascent.Point(sums.value, model.sum(sums.byOdds), curvature);
    }

    /** m p (1 - p) / (1 + (m - 1) rho): the information of a tray if only its mean and variance were known. */
    private double[] expected(double[] b, double theta) {
        var weight = new double[model.height()];
        for (int i = 0; i < weight.length; i++) {
            double m = counts.get(i).trials();
            double p = LogisticFit.rate(Vectors.dot(model.row(i), b));
            weight[i] = m * p * (1 - p) * (1 + theta) / (1 + m * theta);
        }
        return weight;
    }

    /** The surface over b and, last, the logarithm of theta. */
    Ascent.Point joint(double[] place) {
        int k = model.width();
        double theta = Math.exp(place[k]);
        var sums = sums(place, theta);
        var slope = java.util.Arrays.copyOf(model.sum(sums.byOdds), k + 1);
        slope[k] = theta * sums.byTheta;
        double[][] inner = model.products(sums.curvature);
        double[] both = model.sum(sums.byBoth);
        var curvature = new double[k + 1][k + 1];
        for (int a = 0; a < k; a++) {
            System.arraycopy(inner[a], 0, curvature[a], 0, k);
            curvature[a][k] = -theta * both[a];
            curvature[k][a] = -theta * both[a];
        }
        curvature[k][k] = -theta * (sums.byTheta + theta * sums.byThetaTwice);
        return new Ascent.Point(sums.value, slope, curvature);
    }

    /** The derivative by theta. */
    double slopeByTheta(double[] b, double theta) {
        return sums(b, theta).byTheta;
    }
}
