package org.fairtray.bench.planning;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Optional;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Step;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/**
 * A layout that a plan could have, drawn only where that and what is said of it take about a second. Whichever chance
 * draws, what is said of it is the same or nearly so.
 */
final class PlannedLayout {
    /** The seed of {@code size}, so that both say the same. */
    private static final long SOME_SEED = 1;

    private static final int MOST_TRAYS = 1000;
    private static final int MOST_LEVELS = 60;
    private static final long MOST_COMBINATIONS = 1024;

    /** So many trays times combinations may be searched. */
    private static final long MOST_SEARCHED = 70_000;

    /** Of the thread's own working time, so that a computer that is busy with other things gets the same answer, later. */
    private static final long PATIENCE = 1_000_000_000;

    /** Nobody waits longer than that. */
    private static final long LONGEST = 5 * PATIENCE;

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private final Trial trial;

    PlannedLayout(Trial trial) {
        this.trial = trial;
    }

    /** Ends a draw from within. */
    private static final class TakesTooLong extends RuntimeException {
        private static final long serialVersionUID = 1L;

        TakesTooLong() {
            super("no layout was found in time", null, false, false);
        }
    }

    /**
     * Draws it.
     *
     * @return empty where it takes too long
     * @throws org.fairtray.design.DoesNotFitException if the place can't hold the treatments
     */
    Optional<Layout> draw() {
        int trays = trial.place().trays();
        if (trays > MOST_TRAYS || combinations() > MOST_COMBINATIONS || hasManyLevels()) {
            return Optional.empty();
        }
        var randomisation = Randomisation.of(trial);
        if (randomisation.steps().stream().anyMatch(Step::searched) && trays * combinations() > MOST_SEARCHED) {
            return Optional.empty();
        }
        long begun = System.nanoTime();
        long before = worked();
        try {
            return Optional.of(randomisation
                    .draw(Generator.of(SOME_SEED), share -> hurry(begun, before))
                    .layout());
        } catch (TakesTooLong e) {
            return Optional.empty();
        }
    }

    private static void hurry(long begun, long before) {
        if (worked() - before > PATIENCE || System.nanoTime() - begun > LONGEST) {
            throw new TakesTooLong();
        }
    }

    private static long worked() {
        return THREADS.isCurrentThreadCpuTimeSupported() ? THREADS.getCurrentThreadCpuTime() : System.nanoTime();
    }

    private boolean hasManyLevels() {
        return trial.factors().stream().anyMatch(f -> f.levels().size() > MOST_LEVELS);
    }

    private long combinations() {
        return trial.factors().stream().mapToLong(f -> f.levels().size()).reduce(1, Math::multiplyExact);
    }
}
