package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.special.Gamma;
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

    private LogisticFit(
            State state, double[] rates, List<Count> counts, ModelMatrix model, int steps, boolean settled) {
        this.estimates = new Estimates(state.coefficients, state.factor.inverse());
        this.rates = rates;
        this.deviance = state.deviance;
        this.logLikelihood = logLikelihood(counts, state.linear);
        this.residualDf = model.height() - model.width();
        this.steps = steps;
        this.settled = settled;
    }

    private record State(double[] coefficients, double[] linear, double deviance, Cholesky factor) {}

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
        var state = start(model, counts);
        for (int step = 1; step <= MOST_STEPS; step++) {
            var next = better(model, counts, state);
            boolean rest = Math.abs(state.deviance - next.deviance) <= SETTLED * (1 + Math.abs(next.deviance));
            state = next;
            if (rest) {
                return new LogisticFit(state, rates(state.linear), counts, model, step, true);
            }
        }
        return new LogisticFit(state, rates(state.linear), counts, model, MOST_STEPS, false);
    }

    /** Starts from least squares on empirical logits, which is finite for any counts. */
    private static State start(ModelMatrix model, List<Count> counts) {
        int n = counts.size();
        var weight = new double[n];
        var working = new double[n];
        for (int i = 0; i < n; i++) {
            double p = (counts.get(i).successes() + 0.5) / (counts.get(i).trials() + 1);
            weight[i] = counts.get(i).trials() * p * (1 - p);
            working[i] = weight[i] * Math.log(p / (1 - p));
        }
        var factor = Cholesky.of(model.products(weight))
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"));
        return state(model, counts, factor.solve(model.sum(working)), factor);
    }

    private static State better(ModelMatrix model, List<Count> counts, State from) {
        var step = from.factor.solve(score(model, counts, from.linear));
        for (double part = 1; part > 1e-4; part /= 2) {
            var to = from.coefficients.clone();
            Vectors.takeAway(to, -part, step);
            var next = state(model, counts, to, from.factor);
            if (next.deviance <= from.deviance * (1 + SETTLED) + SETTLED) {
                return next;
            }
        }
        return from;
    }

    private static State state(ModelMatrix model, List<Count> counts, double[] coefficients, Cholesky before) {
        int n = counts.size();
        var linear = new double[n];
        var weight = new double[n];
        double deviance = 0;
        for (int i = 0; i < n; i++) {
            linear[i] = Vectors.dot(model.row(i), coefficients);
            double p = rate(linear[i]);
            weight[i] = counts.get(i).trials() * p * (1 - p);
            deviance += deviance(counts.get(i), linear[i]);
        }
        return new State(
                coefficients,
                linear,
                deviance,
                Cholesky.of(model.products(weight)).orElse(before));
    }

    private static double[] score(ModelMatrix model, List<Count> counts, double[] linear) {
        var rest = new double[linear.length];
        for (int i = 0; i < rest.length; i++) {
            rest[i] = counts.get(i).successes() - counts.get(i).trials() * rate(linear[i]);
        }
        return model.sum(rest);
    }

    private static double deviance(Count count, double linear) {
        double y = count.successes();
        double rest = count.trials() - y;
        double saturated = times(y, Math.log(count.rate())) + times(rest, Math.log1p(-count.rate()));
        return 2 * (saturated - y * logRate(linear) - rest * logRate(-linear));
    }

    private static double times(double factor, double logarithm) {
        return factor == 0 ? 0 : factor * logarithm;
    }

    private static double logLikelihood(List<Count> counts, double[] linear) {
        double sum = 0;
        for (int i = 0; i < linear.length; i++) {
            double y = counts.get(i).successes();
            double m = counts.get(i).trials();
            sum += Gamma.logGamma(m + 1) - Gamma.logGamma(y + 1) - Gamma.logGamma(m - y + 1);
            sum += y * logRate(linear[i]) + (m - y) * logRate(-linear[i]);
        }
        return sum;
    }

    /** The rate whose log-odds are given. */
    public static double rate(double linear) {
        return linear >= 0 ? 1 / (1 + Math.exp(-linear)) : Math.exp(linear) / (1 + Math.exp(linear));
    }

    /** The logarithm of that rate. */
    static double logRate(double linear) {
        return linear >= 0 ? -Math.log1p(Math.exp(-linear)) : linear - Math.log1p(Math.exp(linear));
    }

    private static double[] rates(double[] linear) {
        return Arrays.stream(linear).map(LogisticFit::rate).toArray();
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
