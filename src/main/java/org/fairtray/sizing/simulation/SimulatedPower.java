package org.fairtray.sizing.simulation;

import java.util.Optional;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Wilson;

/**
 * How often a term was found.
 *
 * @param term its name
 * @param by what said so
 * @param found how many simulated trials found it
 * @param simulations how many there were; 0 where there is no test, or nothing was simulated before a stop
 * @param noTest why the layout can't test the term, in a sentence; empty where it can
 */
public record SimulatedPower(String term, Judge by, int found, int simulations, Optional<String> noTest) {
    private static final double LEVEL = 0.95;

    /** The share of trials that found it; empty where none was simulated. */
    public Optional<Double> power() {
        return simulations == 0 ? Optional.empty() : Optional.of((double) found / simulations);
    }

    /** The lower end of Wilson's 95 % interval of the power; empty where nothing was simulated. */
    public Optional<Double> low() {
        return interval().map(Interval::low);
    }

    /** The upper end. */
    public Optional<Double> high() {
        return interval().map(Interval::high);
    }

    private Optional<Interval> interval() {
        return simulations == 0
                ? Optional.empty()
                : Optional.of(Wilson.interval(new Count(found, simulations), 1, LEVEL));
    }

    /** Whether the interval is at most twice this wide. */
    boolean isWithin(double halfWidth) {
        return interval().filter(i -> i.high() - i.low() <= 2 * halfWidth).isPresent();
    }

    /** The same with more trials. */
    SimulatedPower plus(int moreFound, int moreSimulations) {
        return new SimulatedPower(term, by, found + moreFound, simulations + moreSimulations, noTest);
    }
}
