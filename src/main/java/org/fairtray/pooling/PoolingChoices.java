package org.fairtray.pooling;

import java.util.OptionalDouble;
import java.util.Set;
import org.fairtray.trial.CommonNames;

/**
 * How trials are pooled.
 *
 * @param names which names mean the same
 * @param despite faults that don't keep a trial out, by the audit's word
 * @param worthwhile the smallest difference of rates worth acting on; empty for the smallest that a trial's plan names
 * @param alpha error rate of a test
 * @param mostTrays of one model of all trays; with more it is left out
 */
public record PoolingChoices(
        CommonNames names, Set<String> despite, OptionalDouble worthwhile, double alpha, int mostTrays) {
    /** A model of so many trays takes some seconds. */
    public static final int SOME_TRAYS = 20_000;

    /** What holds where nothing is said. */
    public static final PoolingChoices USUAL =
            new PoolingChoices(CommonNames.NONE, Set.of(), OptionalDouble.empty(), 0.05, SOME_TRAYS);

    public PoolingChoices {
        despite = Set.copyOf(despite);
    }
}
