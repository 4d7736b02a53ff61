package org.fairtray.sizing.simulation;

import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;

/**
 * One thread's share of the trials, with workspaces of its own.
 *
 * @param trials that it draws from
 * @param looks for each scenario, in the order of the judges
 * @param stopped asked before each trial
 */
record Worker(NumberedTrials trials, Map<Scenario, List<Look>> looks, BooleanSupplier stopped) {

    /**
     * How many trials of a scenario each judge found it in.
     *
     * @param from the first number
     * @param to after the last
     * @param step from one number to the next
     * @throws CancellationException if it is stopped, or the thread interrupted
     */
    int[] found(Scenario scenario, int from, int to, int step) {
        var judging = looks.get(scenario);
        var found = new int[judging.size()];
        for (int number = from; number < to; number += step) {
            if (stopped.getAsBoolean() || Thread.currentThread().isInterrupted()) {
                throw new CancellationException("stopped at trial " + number);
            }
            var counts = trials.draw(number, scenario.rates());
            for (int j = 0; j < found.length; j++) {
                found[j] += judging.get(j).finds(counts) ? 1 : 0;
            }
        }
        return found;
    }
}
