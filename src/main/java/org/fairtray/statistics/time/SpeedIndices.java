package org.fairtray.statistics.time;

import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * The usual indices of how fast, how evenly and how fully seeds germinated: n_i new on day t_i, N germinated of S sown.
 *
 * <p>They describe and don't test. All take a seed to have germinated on the day on which it was found, so trays read on
 * different days can't be compared; and most leave out the seeds that never germinate, so a tray in which most seeds died
 * may look fast.
 *
 * <p>Definitions: Ranal and Santana (2006), Revista Brasileira de Botanica 29, 1-11. The papers named below are cited from
 * memory.
 */
public final class SpeedIndices {
    private final DayCounts counts;
    private final StepCurve curve;
    private final double germinated;
    private final double meanTime;

    private SpeedIndices(DayCounts counts) {
        this.counts = counts;
        this.curve = new StepCurve(counts);
        this.germinated = counts.germinated();
        this.meanTime = sum(i -> events(i) * day(i)) / germinated;
    }

    /** The indices of one or more trays added up; empty where nothing germinated. */
    public static Optional<SpeedIndices> of(DayCounts counts) {
        return counts.germinated() == 0 ? Optional.empty() : Optional.of(new SpeedIndices(counts));
    }

    private double sum(IntToDoubleFunction term) {
        return IntStream.range(0, counts.size()).mapToDouble(term).sum();
    }

    private double events(int i) {
        return counts.events().get(i);
    }

    private double day(int i) {
        return counts.days().get(i);
    }

    /** N / S, between 0 and 1. */
    public double finalRate() {
        return germinated / counts.seeds();
    }

    /** Mean germination time, sum n t / N, days (Labouriau 1983; Ellis and Roberts 1981). */
    public double meanTime() {
        return meanTime;
    }

    /** The variance of the times, sum n (t - mean)^2 / (N - 1), days squared (Labouriau 1983); empty where N is 1. */
    public Optional<Double> variance() {
        return germinated < 2 ? Optional.empty() : Optional.of(squares() / (germinated - 1));
    }

    private double squares() {
        return sum(i -> events(i) * (day(i) - meanTime) * (day(i) - meanTime));
    }

    /** The standard error of the mean time, sqrt(variance / N), days; empty where N is 1. */
    public Optional<Double> meanTimeStandardError() {
        return variance().map(v -> Math.sqrt(v / germinated));
    }

    /** The standard deviation of the times over their mean; empty where N is 1. */
    public Optional<Double> coefficientOfVariation() {
        return variance().map(v -> Math.sqrt(v) / meanTime);
    }

    /** 1 / mean time, per day. */
    public double meanRate() {
        return 1 / meanTime;
    }

    /** The coefficient of velocity, 100 N / sum n t, per cent a day (Kotowski 1926). */
    public double coefficientOfVelocity() {
        return 100 / meanTime;
    }

    /** Maguire's (1962) speed, sum n_i / t_i, seeds a day. It grows with the number sown. */
    public double maguireSpeed() {
        return sum(i -> events(i) / day(i));
    }

    /** Maguire's speed of per cent of the seeds sown, per cent a day. */
    public double maguireSpeedOfPercent() {
        return 100 * maguireSpeed() / counts.seeds();
    }

    /** The accumulated speed, sum c_i / t_i with c cumulative counts (Bradbeer 1988). */
    public double accumulatedSpeed() {
        return sum(i -> counts.cumulative(i) / day(i));
    }

    /** sum (k + 1 - t) n with k the last day read, weights as of Benech-Arnold and others (1991). Papers differ in it. */
    public double germinationIndex() {
        double last = day(counts.size() - 1);
        return sum(i -> (last + 1 - day(i)) * events(i));
    }

    /** The form sum (k - t) n of that index, in which the last day counts nothing. */
    public double germinationIndexFromLast() {
        return germinationIndex() - germinated;
    }

    /** The sum over days read of the cumulative per cent of the seeds sown (Timson 1965); for readings on every day. */
    public double timsonSum() {
        return 100 * sum(counts::cumulative) / counts.seeds();
    }

    /** Uncertainty, -sum f log2 f with f = n/N, bits; 0 where all came on one day (Labouriau and Valadares 1976). */
    public double uncertainty() {
        return sum(i -> {
            double share = events(i) / germinated;
            return share == 0 ? 0 : -share * Math.log(share) / Math.log(2);
        });
    }

    /**
     * Synchrony, sum C(n_i, 2) / C(N, 2): the chance that two germinated seeds came on the same day; empty where N is 1
     * (Primack 1980, as used by Ranal and Santana 2006).
     */
    public Optional<Double> synchrony() {
        return germinated < 2
                ? Optional.empty()
                : Optional.of(sum(i -> events(i) * (events(i) - 1)) / (germinated * (germinated - 1)));
    }

    /** The coefficient of uniformity, N / sum n (mean - t)^2, per day squared (Bewley and Black 1994); empty if all came at once. */
    public Optional<Double> uniformity() {
        double squares = squares();
        return firstDay() == lastDay() ? Optional.empty() : Optional.of(germinated / squares);
    }

    /**
     * The time from one share of the germinated seeds to another, linear between readings, days: U7525 is
     * {@code spread(0.25, 0.75)}; U8416 and U9010 likewise.
     *
     * @throws IllegalArgumentException if not 0 < from < to <= 1
     */
    public double spread(double from, double to) {
        if (!(0 < from && from < to && to <= 1)) {
            throw new IllegalArgumentException("shares " + from + " to " + to + ": expected 0 < from < to <= 1");
        }
        return timeOfShare(to) - timeOfShare(from);
    }

    private double timeOfShare(double share) {
        return curve.timeOf(share * germinated).orElseThrow();
    }

    /** The day on which the first were found. */
    public double firstDay() {
        return IntStream.range(0, counts.size())
                .filter(i -> events(i) > 0)
                .mapToDouble(this::day)
                .min()
                .orElseThrow();
    }

    /** The day on which the last were found. */
    public double lastDay() {
        return IntStream.range(0, counts.size())
                .filter(i -> events(i) > 0)
                .mapToDouble(this::day)
                .max()
                .orElseThrow();
    }

    /** From the first to the last day on which any were found, days. */
    public double timeSpread() {
        return lastDay() - firstDay();
    }
}
