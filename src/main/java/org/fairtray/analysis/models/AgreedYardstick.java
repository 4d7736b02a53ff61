package org.fairtray.analysis.models;

import java.util.Optional;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;

/**
 * A yardstick whose tests count for a verdict only as far as another one says the same: its p of a verdict is the larger
 * of the two. Where nothing is changed, both are at or below alpha in fewer than that share of trials, whichever of them
 * fits the counts better.
 *
 * <p>Source: Berger (1982), Technometrics 24, 295-300 (tests that all have to reject).
 *
 * @param own says what is shown: intervals and tests
 * @param other the analysis of variance, which must agree
 */
record AgreedYardstick(Yardstick own, Yardstick other) implements Yardstick {

    @Override
    public Optional<Spread> spread(double[] gradient, double[] contrast) {
        return own.spread(gradient, contrast);
    }

    @Override
    public double correlation(double[] one, double[] another) {
        return own.correlation(one, another);
    }

    @Override
    public Findings.TermTest test(Term term) {
        return own.test(term).agreedWith(other.test(term));
    }
}
