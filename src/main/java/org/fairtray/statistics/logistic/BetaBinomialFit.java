package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * A logistic regression of counts that are more alike within a row than independent trials, by maximum likelihood: the
 * rate of a row is beta distributed about x'b on the log-odds scale, and rho, common to all rows, is the correlation
 * of two trials of one row.
 *
 * <pre>  var y_i = m_i p_i (1 - p_i) (1 + (m_i - 1) rho),   0 <= rho < 1</pre>
 *
 * Where the likelihood falls from rho = 0 on, the fit is the binomial one and {@link #atZero()}.
 *
 * <p>Sources: Williams (1975), Biometrics 31, 949-952; Crowder (1978), Applied Statistics 27, 34-37; Cox and Hinkley (1974),
 * Theoretical Statistics, section 9.3 (intervals by the likelihood ratio).
 */
public final class BetaBinomialFit {
    /** Where the search for rho begins: the best of these, from slightly to very much alike. */
    private static final List<Double> STARTS = List.of(1e-4, 2e-3, 0.02, 0.1, 0.5);

    /** Nearer to 1 every row would be all or none. */
    private static final double LARGEST = 1 - 1e-6;

    /** A gain of likelihood smaller than this is rounding. */
    private static final double ROUNDING = 1e-9;

    private final BetaBinomialLikelihood likelihood;
    private final double[] coefficients;
    private final double theta;
    private final double[][] covariance;
    private final double height;
    private final double logChoices;
    private final double[] rates;
    private final int steps;
    private final boolean settled;

    private BetaBinomialFit(ModelMatrix model, List<Count> counts, double theta, Ascent ascent) {
        this.likelihood = new BetaBinomialLikelihood(model, counts);
        this.coefficients = Arrays.copyOf(ascent.place(), model.width());
        this.theta = theta;
        var inverse = ascent.point().inverse();
        this.covariance = inverse.orElse(null);
        this.height = ascent.point().value();
        this.logChoices = LogChoices.of(counts);
        this.rates = new double[model.height()];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = LogisticFit.rate(Vectors.dot(model.row(i), coefficients));
        }
        this.steps = ascent.steps();
        this.settled = ascent.settled()
                && inverse.isPresent()
                && theta < theta(LARGEST)
                && !Separation.reached(model, counts, rates);
    }

    /**
     * Fits n counts.
     *
     * @param model n rows with independent columns
     * @param counts n counts with trials above 0
     * @return the fit; {@link #settled()} tells whether there is a maximum with finite estimates
     * @throws IllegalArgumentException if the lengths differ or a count has no trials
     */
    public static BetaBinomialFit of(ModelMatrix model, List<Count> counts) {
        var plain = LogisticFit.of(model, counts);
        var likelihood = new BetaBinomialLikelihood(model, counts);
        var zero = Ascent.from(coefficients(plain.estimates()), b -> likelihood.held(b, 0));
        var best = zero;
        double rho = 0;
        for (double start : STARTS) {
            double held = theta(start);
            var ascent = Ascent.from(best.place(), b -> likelihood.held(b, held));
            if (ascent.point().value() > best.point().value()) {
                best = ascent;
                rho = start;
            }
        }
        if (rho == 0 && likelihood.slopeByTheta(zero.place(), 0) <= 0) {
            return new BetaBinomialFit(model, counts, 0, zero);
        }
        var start = Arrays.copyOf(best.place(), model.width() + 1);
        start[model.width()] = Math.log(theta(rho == 0 ? STARTS.get(0) : rho));
        var joint = Ascent.from(start, likelihood::joint);
        if (joint.point().value() <= zero.point().value() + ROUNDING) {
            return new BetaBinomialFit(model, counts, 0, zero);
        }
        double found = Math.exp(joint.place()[model.width()]);
        return found < theta(LARGEST)
                ? new BetaBinomialFit(model, counts, found, joint)
                : new BetaBinomialFit(model, counts, theta(LARGEST), atLargest(likelihood, joint, model.width()));
    }

    private static Ascent atLargest(BetaBinomialLikelihood likelihood, Ascent joint, int width) {
        return Ascent.from(Arrays.copyOf(joint.place(), width), b -> likelihood.held(b, theta(LARGEST)));
    }

    private static double[] coefficients(Estimates estimates) {
        var all = new double[estimates.size()];
        for (int j = 0; j < all.length; j++) {
            all[j] = estimates.coefficient(j);
        }
        return all;
    }

    private static double theta(double rho) {
        return rho / (1 - rho);
    }

    /**
     * Coefficients with their part of the inverse of the observed information of coefficients and correlation together;
     * of the coefficients alone where the correlation is 0. Empty where that has no inverse.
     */
    public Optional<Estimates> estimates() {
        return Optional.ofNullable(covariance).map(all -> {
            var inner = new double[coefficients.length][];
            for (int j = 0; j < inner.length; j++) {
                inner[j] = Arrays.copyOf(all[j], inner.length);
            }
            return new Estimates(coefficients.clone(), inner);
        });
    }

    /** The correlation rho of two trials of one row, in [0, 1]. */
    public double correlation() {
        return theta / (1 + theta);
    }

    /** The standard error of rho, from the information of all parameters together; empty where rho is 0 or runs to 1. */
    public Optional<Double> correlationStandardError() {
        int k = coefficients.length;
        return covariance == null || covariance.length == k
                ? Optional.empty()
                : Optional.of(Math.sqrt(covariance[k][k]) * correlation() / (1 + theta));
    }

    /** Whether rho is 0, at the end of its range: rows differ no more than chance makes them. */
    public boolean atZero() {
        return theta == 0;
    }

    /**
     * The rho whose profile likelihood, with the coefficients fitted anew, is less than half of the chi-squared quantile
     * with 1 degree of freedom below the largest.
     *
     * @param level confidence level in (0, 1)
     * @return within [0, 1]; an end is 0 or 1 where the likelihood does not fall far enough before it. With rho near 0
     *     the level is held or exceeded
     */
    public Interval correlationInterval(double level) {
        double z = Tail.normalQuantile(1 - (1 - level) / 2);
        double rho = correlation();
        UnivariateFunction left = at -> height - profile(at) - z * z / 2;
        double low = rho == 0 || left.value(0) <= 0 ? 0 : solve(left, 0, rho);
        double high = theta >= theta(LARGEST) || left.value(LARGEST) <= 0 ? 1 : solve(left, rho, LARGEST);
        return new Interval(low, high);
    }

    private static double solve(UnivariateFunction left, double from, double to) {
        return new BrentSolver(1e-9, 1e-13).solve(200, left, from, to);
    }

    private double profile(double rho) {
        double held = theta(rho);
        return Ascent.from(coefficients, b -> likelihood.held(b, held)).point().value();
    }

    /** With the binomial coefficients log C(m, y). */
    public double logLikelihood() {
        return height + logChoices;
    }

    /** The fitted rates of all rows. */
    public double[] rates() {
        return rates.clone();
    }

    /** How many steps the last climb took. */
    public int steps() {
        return steps;
    }

    /**
     * Whether a maximum with finite estimates was found: not so where rows are separated, nor where every row is all or
     * none and rho runs towards 1.
     */
    public boolean settled() {
        return settled;
    }
}
