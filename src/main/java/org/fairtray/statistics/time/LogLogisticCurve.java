package org.fairtray.statistics.time;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.LogisticFit;

/**
 * A smooth curve of the share of seeds that have germinated by time t,
 *
 * <pre>  F(t) = d / (1 + (t / t50)^-b),  0 < d <= 1</pre>
 *
 * by maximum likelihood on counts in intervals. d is the share that ever germinates, t50 the time to half of d (not to half
 * of the seeds sown), b the steepness. Where the likelihood still rises at d = 1 the curve has d = 1 and two parameters:
 * {@link #endsAtOne()}.
 *
 * <p>Sources: Ritz, Pipper and Streibig (2013), European Journal of Agronomy 45, 1-6, for the model and the intervals
 * between readings; Farewell (1982), Biometrics 38, 1041-1046, for a share that never has the event.
 */
public final class LogLogisticCurve {
    private static final List<Double> STEEPNESSES = List.of(2.0, 4.0, 8.0);
    private static final int PARAMETERS = 3;
    private static final double LARGEST_START = 0.995;

    /** Nearer to 1 than this the final rate is taken to be 1. */
    private static final double AT_ONE = 1e-6;

    /** An error of a logarithm above this says that the data don't determine it: a factor of 100 either way and more. */
    private static final double UNKNOWN = 2.5;

    private final LogLogisticLikelihood likelihood;
    private final double finalRate;
    private final Ascent ascent;
    private final double logSteepness;
    private final double logHalf;
    private final double[][] covariance;

    private LogLogisticCurve(LogLogisticLikelihood likelihood, double finalRate, Ascent ascent, double[][] covariance) {
        int last = ascent.place().length - 1;
        this.likelihood = likelihood;
        this.finalRate = finalRate;
        this.ascent = ascent;
        this.logSteepness = ascent.place()[last - 1];
        this.logHalf = ascent.place()[last];
        this.covariance = covariance;
    }

    /**
     * Fits one curve to trays.
     *
     * @param trays one or more, which may have been read on different days
     * @return empty where the data don't determine a curve: nothing germinated, or all within one interval or two that
     *     adjoin, so that it may be as steep as you like, or there are fewer than three days read. What is known
     *     then is {@link StepCurve#halfWithin()}
     */
    public static Optional<LogLogisticCurve> of(List<DayCounts> trays) {
        var spells = Spell.of(trays);
        long readings =
                trays.stream().flatMap(tray -> tray.days().stream()).distinct().count();
        if (readings < PARAMETERS || spells.stream().filter(Spell::ended).count() < 2) {
            return Optional.empty();
        }
        var likelihood = new LogLogisticLikelihood(spells);
        var atOne = best(
                spells, start -> Ascent.from(new double[] {start[1], start[2]}, place -> likelihood.held(1, place)));
        var free = best(spells, start -> Ascent.from(start, likelihood::free));
        double rate = LogisticFit.rate(free.place()[0]);
        return rate > 1 - AT_ONE || atOne.point().value() >= free.point().value()
                ? determined(likelihood, 1, atOne)
                : determined(likelihood, rate, free);
    }

    private static Ascent best(List<Spell> spells, java.util.function.Function<double[], Ascent> climb) {
        double[] ended = {0, 0, 0};
        for (var spell : spells) {
            ended[0] += spell.seeds();
            ended[1] += spell.ended() ? spell.seeds() : 0;
            ended[2] += spell.ended() ? spell.seeds() * spell.middle() : 0;
        }
        double rate = Math.min(ended[1] / ended[0], LARGEST_START);
        double mean = ended[2] / ended[1];
        return STEEPNESSES.stream()
                .map(b -> climb.apply(new double[] {Math.log(rate / (1 - rate)), Math.log(b), Math.log(mean)}))
                .max(Comparator.comparingDouble(a -> a.point().value()))
                .orElseThrow();
    }

    private static Optional<LogLogisticCurve> determined(LogLogisticLikelihood likelihood, double rate, Ascent ascent) {
        return ascent.point()
                .inverse()
                .filter(inverse -> ascent.settled() && isKnown(inverse))
                .map(inverse -> new LogLogisticCurve(likelihood, rate, ascent, inverse));
    }

    private static boolean isKnown(double[][] covariance) {
        int last = covariance.length - 1;
        return DoubleStream.of(covariance[last][last], covariance[last - 1][last - 1])
                .allMatch(variance -> variance < UNKNOWN * UNKNOWN);
    }

    /** d, the share that ever germinates, in (0, 1]. */
    public double finalRate() {
        return finalRate;
    }

    /** Whether d is 1, at the end of its range: nothing in the data says that some seeds never germinate. */
    public boolean endsAtOne() {
        return finalRate == 1;
    }

    /** b, above 0. */
    public double steepness() {
        return Math.exp(logSteepness);
    }

    /** t50, the time to half of d, in days. */
    public double halfTime() {
        return Math.exp(logHalf);
    }

    /** F(t), for t from 0 on. */
    public double rate(double time) {
        return finalRate * LogisticFit.rate(LogLogisticLikelihood.exponent(time, logSteepness, logHalf));
    }

    /** The standard error of log t50 by the observed information; with d held at 1 where {@link #endsAtOne()}. */
    public double logHalfTimeStandardError() {
        int last = covariance.length - 1;
        return Math.sqrt(covariance[last][last]);
    }

    /**
     * Wald's interval on log t50, t50 exp(-+ z s).
     *
     * @param level confidence level in (0, 1)
     * @param dispersion by whose root the standard error s is multiplied: 1 for independent seeds, more where seeds of a
     *     tray are alike (McCullagh and Nelder 1989, Generalized Linear Models, 2nd ed., section 4.5)
     * @throws IllegalArgumentException if the dispersion is below 1
     */
    public Interval halfTimeInterval(double level, double dispersion) {
        double half = quantile(level) * Math.sqrt(checked(dispersion)) * logHalfTimeStandardError();
        return new Interval(halfTime() * Math.exp(-half), halfTime() * Math.exp(half));
    }

    /**
     * The d whose profile likelihood, with b and t50 fitted anew, is less than half of the chi-squared quantile with 1
     * degree of freedom, times the dispersion, below the largest.
     *
     * @param level confidence level in (0, 1)
     * @param dispersion 1 for independent seeds, more where seeds of a tray are alike
     * @return within (0, 1]; the upper end is 1 where the likelihood does not fall far enough before it
     * @throws IllegalArgumentException if the dispersion is below 1
     */
    public Interval finalRateInterval(double level, double dispersion) {
        double cut = checked(dispersion) * quantile(level) * quantile(level) / 2;
        UnivariateFunction left = rate -> ascent.point().value() - profile(rate) - cut;
        double below = finalRate / 2;
        while (left.value(below) < 0) {
            below /= 2;
        }
        double high = endsAtOne() || left.value(1) <= 0 ? 1 : solve(left, finalRate, 1);
        return new Interval(solve(left, below, finalRate), high);
    }

    private static double solve(UnivariateFunction left, double from, double to) {
        return new BrentSolver(1e-12, 1e-13).solve(200, left, from, to);
    }

    private double profile(double rate) {
        return Ascent.from(new double[] {logSteepness, logHalf}, place -> likelihood.held(rate, place))
                .point()
                .value();
    }

    private static double quantile(double level) {
        return Tail.normalQuantile(1 - (1 - level) / 2);
    }

    private static double checked(double dispersion) {
        if (!(dispersion >= 1)) {
            throw new IllegalArgumentException("dispersion " + dispersion + ": expected 1 or more");
        }
        return dispersion;
    }

    /** Without the multinomial constant. */
    public double logLikelihood() {
        return ascent.point().value();
    }

    @Override
    public String toString() {
        return "curve with d, b, t50 " + Arrays.toString(new double[] {finalRate, steepness(), halfTime()});
    }
}
