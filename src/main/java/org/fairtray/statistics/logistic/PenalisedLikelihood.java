package org.fairtray.statistics.logistic;

import java.util.List;
import java.util.Optional;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * The binomial log-likelihood without its constants plus half of log det Z'WZ, W = diag(m p (1 - p)), as a surface over the
 * coefficients of X; the columns Z of the penalty may be more than those of X.
 *
 * <pre>  slope  X'(y - m p + h (1/2 - p)),  h_i = w_i z_i'(Z'WZ)^-1 z_i</pre>
 *
 * <p>The curvature is that of m + h trials, with which the steps for a single rate are exact.
 *
 * <p>Sources: Firth (1993), Biometrika 80, 27-38, section 3.3; Heinze and Schemper (2002), Statistics in Medicine 21,
 * 2409-2419.
 *
 * @param free X, n rows
 * @param penalty Z, n rows with independent columns
 * @param counts n counts with trials above 0
 */
record PenalisedLikelihood(ModelMatrix free, ModelMatrix penalty, List<Count> counts) {

    /** The surface at b; {@code offset} of n numbers is added to the log-odds. Not finite where the penalty isn't. */
    Ascent.Point at(double[] b, double[] offset) {
        int n = counts.size();
        var weight = new double[n];
        double value = 0;
        for (int i = 0; i < n; i++) {
            double linear = linear(i, b, offset);
            double rate = LogisticFit.rate(linear);
            weight[i] = counts.get(i).trials() * rate * LogisticFit.rate(-linear);
            value += logLikelihood(counts.get(i), linear);
        }
        var factor = Cholesky.of(penalty.products(weight));
        return factor.map(Cholesky::logDeterminant).isEmpty()
                ? new Ascent.Point(Double.NEGATIVE_INFINITY, new double[0], new double[0][])
                : surface(b, offset, weight, factor.get(), value);
    }

    private Ascent.Point surface(double[] b, double[] offset, double[] weight, Cholesky factor, double value) {
        int n = counts.size();
        var rest = new double[n];
        var curvature = new double[n];
        for (int i = 0; i < n; i++) {
            double rate = LogisticFit.rate(linear(i, b, offset));
            double leverage = weight[i] * Vectors.dot(penalty.row(i), factor.solve(penalty.row(i)));
            double trials = counts.get(i).trials();
            rest[i] = counts.get(i).successes() - trials * rate + leverage * (0.5 - rate);
            curvature[i] = weight[i] * (1 + leverage / trials);
        }
        return new Ascent.Point(value + factor.logDeterminant() / 2, free.sum(rest), free.products(curvature));
    }

    double linear(int row, double[] b, double[] offset) {
        return offset[row] + Vectors.dot(free.row(row), b);
    }

    /** The inverse of X'WX at b, without the penalty's own curvature; empty where there is none. */
    Optional<double[][]> covariance(double[] b, double[] offset) {
        var weight = new double[counts.size()];
        for (int i = 0; i < weight.length; i++) {
            double linear = linear(i, b, offset);
            weight[i] = counts.get(i).trials() * LogisticFit.rate(linear) * LogisticFit.rate(-linear);
        }
        return Cholesky.of(free.products(weight)).map(Cholesky::inverse);
    }

    private static double logLikelihood(Count count, double linear) {
        double y = count.successes();
        return y * LogisticFit.logRate(linear) + (count.trials() - y) * LogisticFit.logRate(-linear);
    }
}
