package org.fairtray.analysis.models;

import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.linear.FTest;

/**
 * Differences are held against the variances of all strata together, as a layout that is not orthogonal needs: intervals
 * and tests by Kenward and Roger.
 */
final class VarianceYardstick implements Yardstick {
    private final PlaceModel place;
    private final Optional<Estimates> seedsAlone;
    private final Function<Term, Optional<Double>> largest;

    /**
     * @param place the fitted model
     * @param seedsAlone coefficients with the covariance that seeds alone would give; empty for a measure
     * @param largest the F of a term at dispersion 1, which a verdict may not exceed; empty for a measure
     */
    VarianceYardstick(PlaceModel place, Optional<Estimates> seedsAlone, Function<Term, Optional<Double>> largest) {
        this.place = place;
        this.seedsAlone = seedsAlone;
        this.largest = largest;
    }

    /** The yardstick of values as they are; a verdict counts on no less than the least variance of a tray's value. */
    static VarianceYardstick ofValues(PlaceModel place, double leastVariance) {
        return new VarianceYardstick(
                place,
                Optional.empty(),
                t -> place.test(t).map(f -> f.f() * Math.min(1, place.residualVariance() / leastVariance)));
    }

    @Override
    public Optional<Spread> spread(double[] gradient, double[] contrast) {
        var found = place.tests().estimate(gradient, 0.95);
        double variance = found.standardError() * found.standardError();
        return !(variance > 0 && found.df() > 0)
                ? Optional.empty()
                : Optional.of(new Spread(
                        variance,
                        found.df(),
                        seedsAlone.map(e -> e.variance(gradient)).orElse(0.0)));
    }

    @Override
    public double correlation(double[] one, double[] other) {
        double[][] covariance = place.tests().covariance(new double[][] {one, other});
        return covariance[0][1] / Math.sqrt(covariance[0][0] * covariance[1][1]);
    }

    @Override
    public Findings.TermTest test(Term term) {
        var test = place.test(term);
        return test.isEmpty()
                ? new Findings.TermTest(
                        term.name(), term.factors(), strata(term), "f", null, 0, null, null, null, null, null)
                : tested(term, test.get());
    }

    private Findings.TermTest tested(Term term, FTest test) {
        double held = largest.apply(term).map(most -> Math.min(most, test.f())).orElse(test.f());
        return new Findings.TermTest(
                term.name(),
                term.factors(),
                strata(term),
                "f",
                test.f(),
                test.df(),
                test.denominatorDf(),
                place.residualVariance(),
                test.p(),
                null,
                Tail.f(held, test.df(), test.denominatorDf()));
    }

    /** The strata that hold information on a term. */
    private String strata(Term term) {
        var structure = place.structure();
        var names = structure.parts(term).stream()
                .map(p -> structure.strataNames().get(p.stratum()))
                .collect(Collectors.joining(" and "));
        return names.isEmpty() ? null : names;
    }
}
