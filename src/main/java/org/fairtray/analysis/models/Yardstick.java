package org.fairtray.analysis.models;

import java.util.Optional;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;

/** What differences are held against: how far units that were treated alike differ by themselves. */
public interface Yardstick {

    /**
     * How surely a combination of coefficients is known.
     *
     * @param variance of the combination
     * @param degreesOfFreedom that the variance rests on
     * @param leastVariance what seeds alone would give, or 0 for a measure; a verdict never counts on less
     */
    record Spread(double variance, double degreesOfFreedom, double leastVariance) {

        /** The variance a verdict counts on. */
        public double verdictVariance() {
            return Math.max(variance, leastVariance);
        }
    }

    /**
     * The spread of a quantity; empty where nothing is left to measure it by.
     *
     * @param gradient how the quantity moves with each coefficient
     * @param contrast the same for the linear predictor, which tells between which units the quantity differs
     */
    Optional<Spread> spread(double[] gradient, double[] contrast);

    /** The spread of a difference of log-odds, given as its contrast. */
    default Optional<Spread> oddsSpread(double[] contrast) {
        return spread(contrast, contrast);
    }

    /** The correlation of two quantities, given as their gradients. */
    double correlation(double[] one, double[] other);

    /** The test of a term; its p is null where nothing is left to test against. */
    Findings.TermTest test(Term term);
}
