package org.fairtray.statistics.pooling;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;

/**
 * Several studies put together, where each may estimate something a little different: the mean of what they estimate, mu, and
 * the variance from study to study, tau^2.
 *
 * <pre>  y_i ~ N(mu, v_i + tau^2),   w_i = 1 / (v_i + tau^2),   mu = sum w_i y_i / sum w_i
 *   plain:  se^2 = 1 / sum w_i
 *   Hartung and Knapp:  se^2 = 1 / sum w_i  x  sum w_i (y_i - mu)^2 / (k - 1),  t with k - 1 degrees of freedom</pre>
 *
 * with tau^2 by REML ({@link Between}). Hartung and Knapp's interval holds mu as often as it says with few studies, where the
 * plain one is too short; but where studies agree by luck it is far too short. What is to be decided is therefore decided with
 * the larger of the two standard errors ({@link #verdictLow}, {@link #verdictHigh}), at the same t.
 *
 * <p>Of a single study only its estimate and plain normal interval are known; the rest is missing.
 *
 * <p>Sources: Viechtbauer (2005), Journal of Educational and Behavioral Statistics 30, 261-293; Hartung and Knapp (2001),
 * Statistics in Medicine 20, 3875-3889; Sidik and Jonkman (2002), Statistics in Medicine 21, 3153-3159; IntHout, Ioannidis and
 * Borm (2014), BMC Medical Research Methodology 14, 25. The larger error: Knapp and Hartung (2003), Statistics in Medicine 22,
 * 2693-2710; Jackson, Law, Ruecker and Schwarzer (2017), Statistics in Medicine 36, 3923-3934. Immutable.
 */
public final class RandomEffects {
    private final List<Study> studies;
    private final double alpha;
    private final Pool pool;
    private final Pool.At without;
    private final Pool.At with;
    private final boolean settled;

    private RandomEffects(List<Study> studies, double alpha, Pool pool, Pool.At without, Between between) {
        this.studies = studies;
        this.alpha = alpha;
        this.pool = pool;
        this.without = without;
        this.with = between.at();
        this.settled = between.settled();
    }

    /**
     * Puts studies together. The work grows with their number, some 50 times over.
     *
     * @param studies one or more
     * @param alpha in (0, 1): intervals are 1 - alpha ones
     * @throws IllegalArgumentException if there is no study or alpha is out of range
     */
    public static RandomEffects of(List<Study> studies, double alpha) {
        if (studies.isEmpty() || !(alpha > 0 && alpha < 1)) {
            throw new IllegalArgumentException(
                    studies.size() + " studies, alpha " + alpha + ": expected one or more, between 0 and 1");
        }
        var ones = IntStream.range(0, studies.size()).mapToDouble(i -> 1).toArray();
        var pool = new Pool(ModelMatrix.of(List.of(new ModelMatrix.Column("mean", ones))), studies);
        var without = pool.at(0);
        var between = studies.size() == 1 ? new Between(without, true) : Between.of(pool);
        return new RandomEffects(List.copyOf(studies), alpha, pool, without, between);
    }

    /** The studies, in their order. */
    public List<Study> studies() {
        return studies;
    }

    private boolean several() {
        return studies.size() > 1;
    }

    private OptionalDouble ofSeveral(double value) {
        return several() ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    /** Whether the search for tau^2 came to rest; if not, nothing should be concluded. */
    public boolean settled() {
        return settled;
    }

    /** mu; of a single study its estimate. */
    public double estimate() {
        return with.coefficients()[0];
    }

    /** The standard error that takes tau^2 as known. */
    public double plainStandardError() {
        return Math.sqrt(with.covariance()[0][0]);
    }

    /** Hartung and Knapp's standard error, as it is, even where it is below the plain one; missing of a single study. */
    public OptionalDouble standardError() {
        return ofSeveral(plainStandardError() * Math.sqrt(with.q() / degreesOfFreedom()));
    }

    /** k - 1. */
    public int degreesOfFreedom() {
        return studies.size() - 1;
    }

    /** The low end of Hartung and Knapp's interval; of a single study that of the plain normal one. */
    public double low() {
        return estimate() - half(standardError());
    }

    /** The high end of Hartung and Knapp's interval; of a single study that of the plain normal one. */
    public double high() {
        return estimate() + half(standardError());
    }

    /** Two-sided p of mu = 0 that belongs to {@link #low} and {@link #high}. */
    public double p() {
        return p(standardError());
    }

    /** The low end of the interval with the larger of the two standard errors; of a single study it is {@link #low}. */
    public double verdictLow() {
        return estimate() - half(larger());
    }

    /** The high end of the interval with the larger of the two standard errors; of a single study it is {@link #high}. */
    public double verdictHigh() {
        return estimate() + half(larger());
    }

    /** Two-sided p of mu = 0 that belongs to {@link #verdictLow} and {@link #verdictHigh}. */
    public double verdictP() {
        return p(larger());
    }

    private OptionalDouble larger() {
        return several()
                ? OptionalDouble.of(
                        Math.max(plainStandardError(), standardError().orElseThrow()))
                : OptionalDouble.empty();
    }

    private double half(OptionalDouble ofSeveral) {
        return ofSeveral.isPresent()
                ? Tail.tQuantile(1 - alpha / 2, degreesOfFreedom()) * ofSeveral.getAsDouble()
                : Tail.normalQuantile(1 - alpha / 2) * plainStandardError();
    }

    private double p(OptionalDouble ofSeveral) {
        double error = ofSeveral.orElse(plainStandardError());
        if (estimate() == 0) {
            return 1;
        }
        double ratio = Math.abs(estimate() / error);
        return ofSeveral.isPresent() ? Tail.tTwoSided(ratio, degreesOfFreedom()) : Tail.chiSquared(ratio * ratio, 1);
    }

    /** The variance from study to study; missing of a single study. */
    public OptionalDouble tauSquared() {
        return ofSeveral(with.tauSquared());
    }

    /**
     * The interval of tau^2 ({@link QProfile}); missing of a single study, and where the estimates agree so well that it holds
     * not even 0.
     */
    public Optional<Interval> tauSquaredInterval() {
        return several() ? QProfile.of(pool, alpha) : Optional.empty();
    }

    /** Cochran's Q: the sum of (y_i - m)^2 / v_i about the mean m weighted by 1 / v_i; missing of a single study. */
    public OptionalDouble q() {
        return ofSeveral(without.q());
    }

    /** p of tau^2 = 0 by Q, chi-squared with k - 1 degrees of freedom; missing of a single study. */
    public OptionalDouble qP() {
        return several() ? OptionalDouble.of(Tail.chiSquared(without.q(), degreesOfFreedom())) : OptionalDouble.empty();
    }

    /**
     * I^2, the share of the variance of a typical study's estimate that lies between studies: tau^2 / (tau^2 + s^2), with the
     * typical v_i s^2 = (k - 1) sum a_i / ((sum a_i)^2 - sum a_i^2), a_i = 1 / v_i (Higgins and Thompson 2002, Statistics in
     * Medicine 21, 1539-1558, section 3). Missing of a single study.
     */
    public OptionalDouble iSquared() {
        double typical = degreesOfFreedom() / without.trace();
        return ofSeveral(with.tauSquared() / (with.tauSquared() + typical));
    }

    /** I^2 from Q alone, (Q - (k - 1)) / Q, 0 where that is below 0 (the same source); missing of a single study. */
    public OptionalDouble iSquaredFromQ() {
        return ofSeveral(without.q() > 0 ? Math.max(0, 1 - degreesOfFreedom() / without.q()) : 0);
    }

    /**
     * Where what a further study estimates will lie: mu -+ t sqrt(tau^2 + se^2), Hartung and Knapp's se, t with k - 1 degrees of
     * freedom. Higgins, Thompson and Spiegelhalter (2009), Journal of the Royal Statistical Society A 172, 137-159, give the
     * form, with k - 2 and the plain error. Missing of a single study.
     */
    public Optional<Interval> prediction() {
        if (!several()) {
            return Optional.empty();
        }
        double error = standardError().orElseThrow();
        double half = half(OptionalDouble.of(Math.sqrt(with.tauSquared() + error * error)));
        return Optional.of(new Interval(estimate() - half, estimate() + half));
    }

    /** The share of each study in mu, in their order: w_i / sum w_i. */
    public double[] weights() {
        var weights = pool.weights(with.tauSquared());
        double sum =
                IntStream.range(0, weights.length).mapToDouble(i -> weights[i]).sum();
        return IntStream.range(0, weights.length)
                .mapToDouble(i -> weights[i] / sum)
                .toArray();
    }
}
