package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/**
 * A binomial logistic regression with normal random intercepts, by maximum likelihood in the Laplace approximation:
 *
 * <pre>  y_i ~ Binomial(m_i, p_i),  logit p_i = x_i'b + sum over groupings g of u_ig,  u_g ~ N(0, s_g^2)</pre>
 *
 * Groupings may be nested or crossed; counts that vary more than binomial ones have a grouping in which each row is its
 * own group. The likelihood, its slopes and sources stand in {@link LaplaceLikelihood}, the search in {@link MixedMaximum}.
 *
 * <p>Covariances are the inverse of the observed information about coefficients and standard deviations together: central
 * differences of the slopes. A standard deviation estimated as 0 is taken out before that; with all of them 0 this is the
 * {@link LogisticFit}.
 */
public final class MixedLogisticFit {
    /** How long the next step of a plain fit may be, as a share of 1 + the coefficient. */
    private static final double NEXT_STEP = 1e-3;

    private final Estimates estimates;
    private final double[] standardDeviations;
    private final double logLikelihood;
    private final boolean settled;
    private final int steps;
    private final double[][] modes;

    private MixedLogisticFit(
            Estimates estimates,
            double[] standardDeviations,
            double logLikelihood,
            boolean settled,
            int steps,
            double[][] modes) {
        this.estimates = estimates;
        this.standardDeviations = standardDeviations;
        this.logLikelihood = logLikelihood;
        this.settled = settled;
        this.steps = steps;
        this.modes = modes;
    }

    /**
     * Fits n counts.
     *
     * @param model n rows with independent columns
     * @param counts n counts with trials above 0
     * @param groupings of n rows each, none or more, in any order
     * @return the fit; {@link #settled()} tells whether it came to rest at a maximum, which it doesn't where estimates are
     *     infinite or two groupings are the same
     * @throws IllegalArgumentException if numbers of rows differ or a count has no trials
     */
    public static MixedLogisticFit of(ModelMatrix model, List<Count> counts, List<Grouping> groupings) {
        var plain = LogisticFit.of(model, counts);
        if (groupings.isEmpty()) {
            return of(plain, model, counts, groupings);
        }
        var likelihood = new LaplaceLikelihood(model, new RandomIntercepts(counts.size(), groupings), counts);
        var top = MixedMaximum.of(likelihood, plain.estimates().coefficients(), new double[0], counts.size());
        boolean allAtZero = IntStream.range(model.width(), likelihood.size()).allMatch(k -> top.at()[k] == 0);
        return allAtZero || plain.logLikelihood() >= top.value()
                ? of(plain, model, counts, groupings)
                : of(top, likelihood, plain, groupings);
    }

    private static MixedLogisticFit of(
            LogisticFit plain, ModelMatrix model, List<Count> counts, List<Grouping> groupings) {
        double[][] none = groupings.stream().map(g -> new double[g.groups()]).toArray(double[][]::new);
        boolean settled = plain.settled() && atTop(plain, model, counts);
        return new MixedLogisticFit(
                plain.estimates(), new double[groupings.size()], plain.logLikelihood(), settled, plain.steps(), none);
    }

    /** Whether the next step would be short. Where estimates are infinite the likelihood comes to rest, but not they. */
    private static boolean atTop(LogisticFit plain, ModelMatrix model, List<Count> counts) {
        var residual = new double[counts.size()];
        var weight = new double[counts.size()];
        for (int i = 0; i < residual.length; i++) {
            double rate = plain.fittedRate(i);
            residual[i] = counts.get(i).successes() - counts.get(i).trials() * rate;
            weight[i] = counts.get(i).trials() * rate * (1 - rate);
        }
        return Cholesky.of(model.products(weight))
                .map(information -> information.solve(model.sum(residual)))
                .filter(step -> IntStream.range(0, step.length)
                        .allMatch(j -> Math.abs(step[j])
                                <= NEXT_STEP * (1 + Math.abs(plain.estimates().coefficient(j)))))
                .isPresent();
    }

    private static MixedLogisticFit of(
            QuasiNewton.Top top, LaplaceLikelihood likelihood, LogisticFit plain, List<Grouping> groupings) {
        int width = likelihood.firstDeviation();
        var information = ObservedInformation.of(likelihood, top.at());
        double[][] covariance =
                information.map(ObservedInformation::covariance).orElseGet(() -> covariance(plain.estimates()));
        likelihood.value(top.at(), new double[top.at().length]);
        var modes = new double[groupings.size()][];
        for (int g = 0; g < modes.length; g++) {
            modes[g] = likelihood.intercepts(g, groupings.get(g).groups());
        }
        return new MixedLogisticFit(
                new Estimates(Arrays.copyOf(top.at(), width), upperLeft(covariance, width)),
                Arrays.copyOfRange(top.at(), width, top.at().length),
                top.value(),
                top.settled() && information.filter(ObservedInformation::atTop).isPresent(),
                top.steps(),
                modes);
    }

    private static double[][] covariance(Estimates estimates) {
        var covariance = new double[estimates.size()][estimates.size()];
        for (int j = 0; j < covariance.length; j++) {
            for (int k = 0; k < covariance.length; k++) {
                covariance[j][k] = estimates.covariance(j, k);
            }
        }
        return covariance;
    }

    private static double[][] upperLeft(double[][] matrix, int size) {
        return Arrays.stream(matrix)
                .limit(size)
                .map(row -> Arrays.copyOf(row, size))
                .toArray(double[][]::new);
    }

    /**
     * Coefficients with their covariance by the observed information. Where there is no maximum, so that {@link #settled()}
     * is false, the covariance is that of the plain fit.
     */
    public Estimates estimates() {
        return estimates;
    }

    /** The standard deviation of each grouping's intercepts, log-odds, in the order of the groupings; 0 where it vanishes. */
    public double[] standardDeviations() {
        return standardDeviations.clone();
    }

    /** Whether the intercepts of grouping g vanish: its standard deviation is estimated as 0. */
    public boolean atZero(int g) {
        return standardDeviations[g] == 0;
    }

    /** The likeliest intercepts of grouping g at the estimates, log-odds, one for each of its groups. */
    public double[] intercepts(int g) {
        return modes[g].clone();
    }

    /** With the binomial coefficients log C(m, y). */
    public double logLikelihood() {
        return logLikelihood;
    }

    /** How many steps of the outer search were taken. */
    public int steps() {
        return steps;
    }

    /** Whether the search came to rest at a maximum. */
    public boolean settled() {
        return settled;
    }
}
