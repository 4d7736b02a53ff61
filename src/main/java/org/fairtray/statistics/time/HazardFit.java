package org.fairtray.statistics.time;

import java.util.List;
import java.util.Optional;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Vectors;
import org.fairtray.statistics.logistic.Dispersion;
import org.fairtray.statistics.logistic.LogChoices;
import org.fairtray.statistics.logistic.Separation;

/**
 * Proportional hazards of events that are looked for only now and then: of those that were still at risk at a reading, a
 * share p is found to have had the event at the next.
 *
 * <pre>  log(-log(1 - p)) = x'b</pre>
 *
 * With an intercept for each reading, b is that of Cox's model whatever happens between the readings; exp(b_j) is the
 * factor by which x_j multiplies the chance of an event at any moment. The likelihood is concave and climbed by Newton's
 * steps; standard errors are by the expected information, as those of scoring would be.
 *
 * <p>Sources: Prentice and Gloeckler (1978), Biometrics 34, 57-67; McCullagh and Nelder (1989), Generalized Linear Models,
 * 2nd ed., sections 4.3 and 13.
 */
public final class HazardFit {
    private final ModelMatrix model;
    private final List<Count> counts;
    private final Ascent ascent;
    private final double[] rates;
    private final double[][] covariance;
    private final List<Integer> separated;

    private HazardFit(ModelMatrix model, List<Count> counts, Ascent ascent) {
        this.model = model;
        this.counts = counts;
        this.ascent = ascent;
        this.rates = new double[model.height()];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = -Math.expm1(-Math.exp(Vectors.dot(model.row(i), ascent.place())));
        }
        this.covariance = Cholesky.of(model.products(expected(model, counts, ascent.place())))
                .map(Cholesky::inverse)
                .orElse(null);
        this.separated = Separation.reached(model, counts, rates) ? Separation.rows(model, counts) : List.of();
    }

    /**
     * Fits n counts of new events among those at risk.
     *
     * @param model n rows with independent columns, among them or within their span one for each reading
     * @param counts n counts of new events of those at risk, at risk above 0. Readings without any event belong left out:
     *     their intercepts are minus infinity and they tell nothing
     * @return the fit; {@link #settled()} tells whether there is a maximum with finite estimates
     * @throws IllegalArgumentException if the lengths differ, a count has none at risk, or columns depend on each other
     */
    public static HazardFit of(ModelMatrix model, List<Count> counts) {
        if (counts.size() != model.height() || counts.stream().anyMatch(c -> c.trials() == 0)) {
            throw new IllegalArgumentException(counts.size() + " counts for " + model.height()
                    + " rows: expected as many, each with some at risk");
        }
        var ascent = Ascent.from(start(model, counts), b -> surface(model, counts, b));
        return new HazardFit(model, List.copyOf(counts), ascent);
    }

    /** Least squares on log(-log(1 - p)) of (y + 1/2) / (m + 1), which is finite for any counts. */
    private static double[] start(ModelMatrix model, List<Count> counts) {
        int n = counts.size();
        var weight = new double[n];
        var working = new double[n];
        for (int i = 0; i < n; i++) {
            double m = counts.get(i).trials();
            double hazard = -Math.log1p(-(counts.get(i).successes() + 0.5) / (m + 1));
            weight[i] = m * hazard * hazard / Math.expm1(hazard);
            working[i] = weight[i] * Math.log(hazard);
        }
        return Cholesky.of(model.products(weight))
                .orElseThrow(() -> new IllegalArgumentException("columns are not independent"))
                .solve(model.sum(working));
    }

    private static Ascent.Point surface(ModelMatrix model, List<Count> counts, double[] b) {
        int n = counts.size();
        var slope = new double[n];
        var curvature = new double[n];
        double value = 0;
        for (int i = 0; i < n; i++) {
            double y = counts.get(i).successes();
            double rest = counts.get(i).trials() - y;
            double hazard = Math.exp(Vectors.dot(model.row(i), b));
            double turn = turn(hazard);
            value += (y == 0 ? 0 : y * Math.log(-Math.expm1(-hazard))) - (rest == 0 ? 0 : rest * hazard);
            slope[i] = y * turn - rest * hazard;
            curvature[i] = y * turn * Math.max(0, hazard + turn - 1) + rest * hazard;
        }
        return new Ascent.Point(value, model.sum(slope), model.products(curvature));
    }

    /** The derivative of log p by x'b. */
    private static double turn(double hazard) {
        return hazard / Math.expm1(hazard);
    }

    private static double[] expected(ModelMatrix model, List<Count> counts, double[] b) {
        var weight = new double[model.height()];
        for (int i = 0; i < weight.length; i++) {
            double hazard = Math.exp(Vectors.dot(model.row(i), b));
            weight[i] = counts.get(i).trials() * hazard * turn(hazard);
        }
        return weight;
    }

    /** Coefficients with the inverse of the expected information; empty where that has none. */
    public Optional<Estimates> estimates() {
        return Optional.ofNullable(covariance).map(c -> new Estimates(ascent.place(), c));
    }

    /** With the binomial coefficients log C(at risk, new). */
    public double logLikelihood() {
        return ascent.point().value() + LogChoices.of(counts);
    }

    /** The fitted share of events at each row. */
    public double[] rates() {
        return rates.clone();
    }

    /** Rows less columns. */
    public int residualDegreesOfFreedom() {
        return model.height() - model.width();
    }

    /** How many steps were taken. */
    public int steps() {
        return ascent.steps();
    }

    /** Whether a maximum with finite estimates was found. */
    public boolean settled() {
        return ascent.settled() && covariance != null && separated.isEmpty();
    }

    /** Rows whose hazard runs to 0 or infinity, such as those of a treatment without any event; empty if none. */
    public List<Integer> separated() {
        return separated;
    }

    /**
     * Pearson's X2 over groups of rows, such as trays or stacks with all their days: new events of each group less those
     * fitted, squared, over their variance. Given the past, days of a group vary independently. Divided by the degrees of
     * freedom left between the groups it is their dispersion.
     *
     * @param groups of the n rows
     */
    public double pearson(Grouping groups) {
        return Dispersion.pearson(counts, rates, groups);
    }

    /**
     * Coefficients with a covariance that holds though rows of a cluster are alike; see {@link ClusteredCovariance}.
     * Empty where the fit isn't settled or there are no more clusters than coefficients.
     *
     * @param clusters of the n rows, such as the tray of each
     */
    public Optional<Estimates> clustered(Grouping clusters) {
        return settled()
                ? ClusteredCovariance.scaled(parts(), clusters).map(c -> new Estimates(ascent.place(), c))
                : Optional.empty();
    }

    /**
     * The same with the residuals of each cluster freed from its own pull on the fit, which is better with few clusters.
     * Empty where the fit isn't settled or a cluster alone determines a coefficient.
     *
     * @param clusters of the n rows
     */
    public Optional<Estimates> clusteredUnbiased(Grouping clusters) {
        return settled()
                ? ClusteredCovariance.unbiased(parts(), clusters).map(c -> new Estimates(ascent.place(), c))
                : Optional.empty();
    }

    /** Standardised residuals, and the rows of the model times the root of their weights. */
    private ClusteredCovariance.Parts parts() {
        int n = model.height();
        var residuals = new double[n];
        var rows = new double[n][];
        for (int i = 0; i < n; i++) {
            double m = counts.get(i).trials();
            double hazard = Math.exp(Vectors.dot(model.row(i), ascent.place()));
            double deviation = Math.sqrt(m * rates[i] * Math.exp(-hazard));
            residuals[i] = (counts.get(i).successes() - m * rates[i]) / deviation;
            double root = m * hazard * Math.exp(-hazard) / deviation;
            rows[i] = java.util.Arrays.stream(model.row(i)).map(x -> root * x).toArray();
        }
        return new ClusteredCovariance.Parts(rows, residuals, covariance);
    }
}
