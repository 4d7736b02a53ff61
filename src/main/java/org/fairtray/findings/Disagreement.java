package org.fairtray.findings;

import java.util.Optional;

/** What it means where a model and the re-randomisation test don't say the same of a term. */
public final class Disagreement {
    private Disagreement() {}

    /**
     * A sentence where one of the two is at or below alpha and the other is not.
     *
     * @param modelP by the model; null where it has no test
     * @param chance by the re-randomisation
     * @param alpha in (0, 1)
     */
    public static Optional<String> of(Double modelP, Rerandomised chance, double alpha) {
        if (modelP == null || (modelP <= alpha) == (chance.p() <= alpha)) {
            return Optional.empty();
        }
        String both = "For " + chance.term() + " the model gives " + Words.p(modelP) + ", re-randomisation "
                + Words.p(chance.p()) + ". ";
        if (modelP > alpha) {
            return Optional.of(both
                    + "Chance alone seldom makes differences like these, though the model doesn't see them: its"
                    + " assumptions about how trays differ may not fit here. Take it as a hint, not as shown.");
        }
        return Optional.of(
                chance.smallestP() > alpha
                        ? both + "So few arrangements were possible that re-randomisation could not have come below "
                                + Words.p(chance.smallestP()).replace("p = ", "")
                                + ": what the model says rests on its assumptions about how trays differ. More units"
                                + " would put it to the test."
                        : both + "Chance alone makes differences like these more often than the model takes for"
                                + " possible: its answer leans on its assumptions about how trays differ. More units"
                                + " would put it to the test.");
    }
}
