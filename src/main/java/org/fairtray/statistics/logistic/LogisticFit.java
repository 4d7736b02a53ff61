package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;

/**
 * A binomial logistic regression by maximum likelihood: iteratively reweighted least squares, a step halved while it
 * would raise the deviance.
 *
 * <pre>  logit p_i = x_i'b;  b += (X'WX)^-1 X'(y - mp),  W = diag(m p (1 - p))</pre>
 *
 * <p>Source: McCullagh and Nelder (1989), Generalized Linear Models, 2nd ed., sections 2.5 and 4.4.
 */
public final class LogisticFit {
    private static final int MOST_STEPS = 100;
    private static final double SETTLED = 1e-13;

    private final Estimates estimates;
    private final double[] rates;
    private final double deviance;
    private final double logLikelihood;
    private final int residualDf;
    private final int steps;
    private final boolean settled;

    private LogisticFit(State state, Data data, int steps, boolean settled) {
        this.estimates = new Estimates(state.coefficients, state.factor.inverse());
        this.rates = rates(data.model, state.coefficients);
        this.deviance = state.deviance;
        this.logLikelihood = data.largest - state.deviance / 2;
        this.residualDf = data.model.height() - data.model.width();
        this.steps = steps;
        this.settled = settled;
    }

    /**
     * What is fitted.
     *
     * @param saturated y log(y/m) + (m - y) log(1 - y/m) of each count: its log-likelihood at its own rate
     * @param largest the log-likelihood with a rate for each row
     */
    private record Data(ModelMatrix model, BinomialRows rows, double[] saturated, double largest) {

        static Data of(ModelMatrix model, List<Count> counts) {
            var rows = new BinomialRows(counts);
            double[] saturated = counts.stream().mapToDouble(Data::saturated).toArray();
            double sum = Arrays.stream(saturated).sum();
            return new Data(model, rows, saturated, rows.binomialCoefficients() + sum);
        }

        private static double saturated(Count count) {
            double y = count.successes();
            double rest = count.trials() - y;
            return times(y, Math.log(count.rate())) + times(rest, Math.log(rest / count.trials()));
        }

        private static double times(double factor, double logarithm) {
            return factor == 0 ? 0 : factor * logarithm;
        }
    }

    private record State(double[] coefficients, double[] score, double deviance, Cholesky factor) {}

    /**
     * Fits n counts.
     *
     * @param model n rows with independent columns
     * @param counts n counts with trials above 0
     * @return the fit; {@link #settled()} tells whether the steps came to rest, which they don't where the estimates are
     *     infinite
     * @throws IllegalArgumentException if the lengths differ or a count has no trials
     */
    public static LogisticFit of(ModelMatrix model, List<Count> counts) {
        if (counts.size() != model.height() || counts.stream().anyMatch(c -> c.trials() == 0)) {
            throw new IllegalArgumentException(
                    counts.size() + " counts for " + model.height() + " rows: expected as many, each with trials");
        }
        var data = Data.of(model, counts);
        var state = start(data);
        for (int step = 1; step <= MOST_STEPS; step++) {
            var next = better(data, state);
            boolean rest = Math.abs(state.deviance - next.deviance) <= SETTLED * (1 + Math.abs(next.deviance));
            state = next;
            if (rest) {
                return new LogisticFit(state, data, step, true);
            }
        }
        return new LogisticFit(state, data, MOST_STEPS, false);
    }

    /** Starts from least squares on empirical logits, which is finite for any counts. */
    private static State start(Data data) {
        var rows = data.rows;
        var working = new double[rows.size()];
        for (int i = 0; i < working.length; i++) {
            double seen = rows.empirical(i);
            rows.set(i, seen);
            working[i] = rows.weight[i] * seen;
        }
        var factor = Cholesky.of(data.model.products(rows.weight))
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"));
        return state(data, factor.solve(data.model.sum(working)), factor);
    }

    private static State better(Data data, State from) {
        var step = from.factor.solve(from.score);
        for (double part = 1; part > 1e-4; part /= 2) {
            var to = from.coefficients.clone();
            Vectors.takeAway(to, -part, step);
            var next = state(data, to, from.factor);
            if (next.deviance <= from.deviance * (1 + SETTLED) + SETTLED) {
                return next;
            }
        }
        return from;
    }

    private static State state(Data data, double[] coefficients, Cholesky before) {
        double deviance = 0;
        for (int i = 0; i < data.saturated.length; i++) {
            double linear = Vectors.dot(data.model.row(i), coefficients);
            deviance += 2 * (data.saturated[i] - data.rows.set(i, linear));
        }
        var factor = Cholesky.of(data.model.products(data.rows.weight)).orElse(before);
        return new State(coefficients, data.model.sum(data.rows.residual), deviance, factor);
    }

    private static double[] rates(ModelMatrix model, double[] coefficients) {
        var rates = new double[model.height()];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = rate(Vectors.dot(model.row(i), coefficients));
        }
        return rates;
    }

    /** The rate whose log-odds are given. */
    public static double rate(double linear) {
        return linear >= 0 ? 1 / (1 + Math.exp(-linear)) : Math.exp(linear) / (1 + Math.exp(linear));
    }

    /** The logarithm of that rate. */
    static double logRate(double linear) {
        return linear >= 0 ? -Math.log1p(Math.exp(-linear)) : linear - Math.log1p(Math.exp(linear));
    }

    /** Coefficients with the inverse of the expected information. */
    public Estimates estimates() {
        return estimates;
    }

    /** The fitted rate of row i. */
    public double fittedRate(int i) {
        return rates[i];
    }

    /** The fitted rates of all rows. */
    public double[] rates() {
        return rates.clone();
    }

    /** Twice the log-likelihood that is lost against a rate for each row; 0 or more. */
    public double deviance() {
        return deviance;
    }

    /** With the binomial coefficients log C(m, y). */
    public double logLikelihood() {
        return logLikelihood;
    }

    /** Rows less columns. */
    public int residualDf() {
        return residualDf;
    }

    /** How many steps were taken. */
    public int steps() {
        return steps;
    }

    /** Whether the steps came to rest. */
    public boolean settled() {
        return settled;
    }
}
