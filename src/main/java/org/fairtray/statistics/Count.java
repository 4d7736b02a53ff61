package org.fairtray.statistics;

/**
 * So many of so many.
 *
 * @param successes 0 or more, at most {@code trials}
 * @param trials 0 or more
 */
public record Count(long successes, long trials) {

    /** @throws IllegalArgumentException if not 0 <= successes <= trials */
    public Count {
        if (successes < 0 || successes > trials) {
            throw new IllegalArgumentException(successes + " of " + trials + ": expected 0 <= successes <= trials");
        }
    }

    /** successes / trials; 0 where there are no trials. */
    public double rate() {
        return trials == 0 ? 0 : (double) successes / trials;
    }

    /** Both added up. */
    public Count plus(Count other) {
        return new Count(successes + other.successes, trials + other.trials);
    }

    /** Whether all or none succeeded. */
    public boolean allOrNone() {
        return successes == 0 || successes == trials;
    }
}
