package org.fairtray.analysis;

import java.util.Locale;
import java.util.function.Consumer;
import java.util.function.IntConsumer;
import org.fairtray.analysis.models.Bootstrap;
import org.fairtray.trial.Outcome;

/**
 * What can be asked of an analysis beyond what the plan says.
 *
 * @param bootstrapDraws how many parametric bootstrap draws each term of the mixed logistic fits gets; 0 for none
 * @param progress is told now and then how far what takes long is, in words; outcomes are worked on side by side, so it is
 *     called by several threads
 */
public record AnalysisOptions(int bootstrapDraws, Consumer<String> progress) {
    /** Nothing more than the plan says. */
    public static final AnalysisOptions USUAL = new AnalysisOptions(0, said -> {});

    /** The same for every trial, so that an analysis gives the same numbers whoever repeats it. */
    private static final long SEED = 1;

    /** @throws IllegalArgumentException if draws are below 0 */
    public AnalysisOptions {
        if (bootstrapDraws < 0) {
            throw new IllegalArgumentException(bootstrapDraws + " bootstrap draws: expected 0 or more");
        }
    }

    Bootstrap bootstrap(Outcome outcome) {
        return new Bootstrap(
                bootstrapDraws,
                SEED,
                (term, done) -> progress.accept(
                        outcome.name() + ", " + term + ": bootstrap draw " + done + " of " + bootstrapDraws));
    }

    /** Takes the number of arrangements of the layout that have been tried for an outcome. */
    IntConsumer arrangements(Outcome outcome) {
        return tried -> progress.accept(
                String.format(Locale.ROOT, "%s: %,d arrangements of the trays tried", outcome.name(), tried));
    }
}
