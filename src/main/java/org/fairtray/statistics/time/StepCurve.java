package org.fairtray.statistics.time;

import java.util.Optional;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Wilson;

/**
 * The share of the seeds that had germinated by each day read, with no model of what happens between, and the days on which
 * a given number is passed.
 *
 * <p>All seeds are followed to the last day, so Kaplan and Meier's estimate is the plain share, and Greenwood's variance
 * the binomial one; Wilson's interval is used since it holds near 0 and 1.
 *
 * <p>Sources: Kaplan and Meier (1958), Journal of the American Statistical Association 53, 457-481; Wilson (1927), same
 * journal 22, 209-212; Coolbear, Francis and Grierson (1984), Journal of Experimental Botany 35, 1609-1617, and Farooq, Basra,
 * Ahmad and Hafeez (2005), Journal of Integrative Plant Biology 47, 187-193, for the time to half.
 *
 * @param counts of one or more trays, added up
 */
public record StepCurve(DayCounts counts) {

    /** The share that had germinated by day i. */
    public double rate(int i) {
        return upTo(i).rate();
    }

    private Count upTo(int i) {
        return new Count(counts.cumulative(i), counts.seeds());
    }

    /**
     * Wilson's interval for that share, for day i by itself.
     *
     * @param dispersion 1 for independent seeds, more where seeds of a tray are alike
     * @param level confidence level in (0, 1)
     */
    public Interval interval(int i, double dispersion, double level) {
        return Wilson.interval(upTo(i), dispersion, level);
    }

    /** The days read between which half of the final count N is passed; empty where nothing germinated. */
    public Optional<Interval> halfWithin() {
        return within(counts.germinated() / 2.0);
    }

    /**
     * The days read, 0 the first, between which the cumulative count comes from below {@code number} to it.
     *
     * @param number above 0 to be passed at all
     * @return empty where it is never reached
     */
    private Optional<Interval> within(double number) {
        return reached(number)
                .map(i -> new Interval(counts.before(i), counts.days().get(i)));
    }

    private Optional<Integer> reached(double number) {
        for (int i = 0; i < counts.size() && number > 0; i++) {
            if (counts.cumulative(i) >= number) {
                return Optional.of(i);
            }
        }
        return Optional.empty();
    }

    /**
     * The time at which the cumulative count is {@code number}, on a straight line between readings and from 0 on day 0.
     *
     * <pre>  t_i + (number - c_i) (t_j - t_i) / (c_j - c_i),  c_i < number <= c_j</pre>
     *
     * @return in days; empty where it is never reached or not above 0
     */
    public Optional<Double> timeOf(double number) {
        return reached(number).map(j -> {
            double from = counts.before(j);
            long below = counts.cumulative(j) - counts.events().get(j);
            return from
                    + (number - below)
                            * (counts.days().get(j) - from)
                            / counts.events().get(j);
        });
    }

    /** Coolbear's time to half of those germinated, to number (N + 1)/2; empty where nothing germinated. */
    public Optional<Double> halfTimeCoolbear() {
        return counts.germinated() == 0 ? Optional.empty() : timeOf((counts.germinated() + 1) / 2.0);
    }

    /** Farooq's time to half of those germinated, to number N/2; empty where nothing germinated. */
    public Optional<Double> halfTimeFarooq() {
        return timeOf(counts.germinated() / 2.0);
    }

    /** The time to half of the seeds sown; empty where fewer germinated. */
    public Optional<Double> halfTimeOfSown() {
        return timeOf(counts.seeds() / 2.0);
    }
}
