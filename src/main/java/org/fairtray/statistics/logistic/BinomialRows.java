package org.fairtray.statistics.logistic;

import java.util.List;
import org.fairtray.statistics.Count;

/** n counts, and what follows from their log-odds as these change. A workspace for one thread. */
final class BinomialRows {
    /** Up to here a product is multiplied on before its logarithm is taken. */
    private static final double LARGE = 1e250;

    private final double[] successes;
    private final double[] trials;
    private final double binomialCoefficients;

    /** y - m p of each row. */
    final double[] residual;

    /** m p (1 - p) of each row. */
    final double[] weight;

    /** 1 - 2p of each row: the weight times this is how the weight changes with the log-odds. */
    final double[] skew;

    BinomialRows(List<Count> counts) {
        int n = counts.size();
        this.successes = counts.stream().mapToDouble(Count::successes).toArray();
        this.trials = counts.stream().mapToDouble(Count::trials).toArray();
        this.residual = new double[n];
        this.weight = new double[n];
        this.skew = new double[n];
        this.binomialCoefficients = LogChoices.of(counts);
    }

    int size() {
        return trials.length;
    }

    /** The sum of log C(m, y). */
    double binomialCoefficients() {
        return binomialCoefficients;
    }

    /** The log-odds seen in row i, finite for any count: log((y + 1/2)/(m - y + 1/2)). */
    double empirical(int i) {
        return Math.log((successes[i] + 0.5) / (trials[i] - successes[i] + 0.5));
    }

    /** Sets the log-odds of row i; y log p + (m - y) log(1 - p). */
    double set(int i, double logOdds) {
        return linearPart(i, logOdds) - trials[i] * Math.log(setAndGiveWhole(i, logOdds));
    }

    /**
     * Sets the log-odds of all rows; the sum of y log p + (m - y) log(1 - p). Rows in a row with as many trials share one
     * logarithm, that of a product: it takes longer than all the rest. What rounding takes from the sum is put back with the
     * next part (Kahan 1965, Communications of the ACM 8, 40): of 100,000 rows a plain sum is off by 1e-7, and a search for
     * the greatest one then finds no end.
     */
    double set(double[] logOdds) {
        double sum = 0;
        double lost = 0;
        double part = 0;
        double product = 1;
        int last = trials.length - 1;
        for (int i = 0; i <= last; i++) {
            part += linearPart(i, logOdds[i]);
            product *= setAndGiveWhole(i, logOdds[i]);
            if (i == last || trials[i + 1] != trials[i] || product > LARGE) {
                double next = part - trials[i] * Math.log(product) - lost;
                double longer = sum + next;
                lost = (longer - sum) - next;
                sum = longer;
                part = 0;
                product = 1;
            }
        }
        return sum;
    }

    private double linearPart(int i, double logOdds) {
        return successes[i] * logOdds - trials[i] * Math.max(logOdds, 0);
    }

    /** 1 + exp(-|log-odds|), from which the rest follows. */
    private double setAndGiveWhole(int i, double logOdds) {
        double small = Math.exp(-Math.abs(logOdds));
        double whole = 1 + small;
        double far = small / whole;
        double rate = logOdds >= 0 ? 1 / whole : far;
        residual[i] = successes[i] - trials[i] * rate;
        weight[i] = trials[i] * far / whole;
        skew[i] = 1 - 2 * rate;
        return whole;
    }
}
