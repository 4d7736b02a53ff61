package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;

/**
 * Firth's penalised logistic regression: the log-likelihood plus half the log determinant of the expected information is
 * made as large as it can be. Its estimates are finite for all counts, those of none or all too, and less biased.
 *
 * <p>A term is tested by twice the difference between the penalised log-likelihoods of the fit with it and of the fit in
 * which its coefficients are held at 0 and the penalty remains that of the model with the term: {@link #restricted}.
 * Without its columns in the penalty the two would not be comparable.
 *
 * <p>Sources: Firth (1993), Biometrika 80, 27-38; Heinze and Schemper (2002), Statistics in Medicine 21, 2409-2419 (tests
 * and intervals by the profile of the penalised likelihood).
 */
public final class PenalisedFit {
    private final PenalisedLikelihood likelihood;
    private final Ascent ascent;
    private final Estimates estimates;
    private final double[] rates;

    private PenalisedFit(PenalisedLikelihood likelihood, Ascent ascent) {
        var none = new double[likelihood.counts().size()];
        this.likelihood = likelihood;
        this.ascent = ascent;
        this.estimates = new Estimates(
                ascent.place(),
                likelihood
                        .covariance(ascent.place(), none)
                        .orElseThrow(() -> new IllegalArgumentException("columns are not independent")));
        this.rates = new double[none.length];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = LogisticFit.rate(likelihood.linear(i, ascent.place(), none));
        }
    }

    /**
     * Fits n counts.
     *
     * @param model n rows with independent columns
     * @param counts n counts with trials above 0
     * @throws IllegalArgumentException if the lengths differ or a count has no trials
     */
    public static PenalisedFit of(ModelMatrix model, List<Count> counts) {
        return restricted(model, model, counts);
    }

    /**
     * Fits the columns of {@code free} with the penalty of a larger model, whose other coefficients are held at 0.
     *
     * @param free n rows with independent columns, all of them combinations of those of {@code penalty}
     * @param penalty n rows with independent columns
     * @param counts n counts with trials above 0
     * @throws IllegalArgumentException if the lengths differ or a count has no trials
     */
    public static PenalisedFit restricted(ModelMatrix free, ModelMatrix penalty, List<Count> counts) {
        if (counts.size() != free.height()
                || counts.size() != penalty.height()
                || counts.stream().anyMatch(c -> c.trials() == 0)) {
            throw new IllegalArgumentException(counts.size() + " counts for " + free.height()
                    + " rows and a penalty of " + penalty.height() + ": expected as many, each with trials");
        }
        var likelihood = new PenalisedLikelihood(free, penalty, counts);
        var none = new double[counts.size()];
        var ascent = Ascent.from(new double[free.width()], b -> likelihood.at(b, none));
        return new PenalisedFit(likelihood, ascent);
    }

    /** Coefficients with the inverse of the expected information without the penalty's own curvature. */
    public Estimates estimates() {
        return estimates;
    }

    /** The log-likelihood with log C(m, y) plus half of log det Z'WZ, which depends on how the columns are coded. */
    public double penalisedLogLikelihood() {
        return ascent.point().value() + LogChoices.of(likelihood.counts());
    }

    /** The fitted rates of all rows, in (0, 1). */
    public double[] rates() {
        return rates.clone();
    }

    /** How many steps were taken. */
    public int steps() {
        return ascent.steps();
    }

    /** Whether the steps came to rest. */
    public boolean settled() {
        return ascent.settled();
    }

    /**
     * The values of the combination w'b whose profile, with all else fitted anew and the penalty unchanged, is less than
     * half of the chi-squared quantile with 1 degree of freedom below the largest. Finite for all counts, and longer on
     * the side where the data say less.
     *
     * @param weights w, one for each column, not all 0
     * @param level confidence level in (0, 1)
     * @return on the scale of w'b: differences of log-odds for coefficients
     * @throws IllegalArgumentException if there are not as many weights as columns, or all are 0
     */
    public Interval interval(double[] weights, double level) {
        var profile = new Profile(weights);
        double z = Tail.normalQuantile(1 - (1 - level) / 2);
        UnivariateFunction left = at -> ascent.point().value() - profile.height(at) - z * z / 2;
        double step = z * Math.sqrt(estimates.variance(weights));
        return new Interval(end(left, profile.best, -step), end(left, profile.best, step));
    }

    private static double end(UnivariateFunction left, double best, double step) {
        double out = step;
        while (left.value(best + out) < 0) {
            out *= 2;
        }
        double near = out == step ? 0 : out / 2;
        double from = Math.min(best + near, best + out);
        double to = Math.max(best + near, best + out);
        return new BrentSolver(1e-12, 1e-9 * Math.abs(step)).solve(200, left, from, to);
    }

    /** The largest penalised likelihood with w'b held. */
    private final class Profile {
        private final double[] weights;
        private final int held;
        private final double best;
        private final PenalisedLikelihood rest;
        private final double[] start;

        Profile(double[] weights) {
            this.weights = weights.clone();
            this.held = likelihood.free().held(weights);
            this.best = estimates.combination(weights);
            this.rest = new PenalisedLikelihood(
                    likelihood.free().holding(weights), likelihood.penalty(), likelihood.counts());
            var others = new double[estimates.size() - 1];
            Arrays.setAll(others, j -> estimates.coefficient(j < held ? j : j + 1));
            this.start = others;
        }

        double height(double at) {
            var offset = new double[likelihood.counts().size()];
            Arrays.setAll(offset, i -> likelihood.free().row(i)[held] * at / weights[held]);
            return Ascent.from(start, b -> rest.at(b, offset)).point().value();
        }
    }
}
