package org.fairtray.analysis.models;

import java.util.List;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Numbers;
import org.fairtray.statistics.Tail;

/**
 * The tests that verdicts rest on: each term against the units it was given to. For a count, the deviance that the term
 * takes away per degree of freedom over the dispersion between those units, which is never taken to be below 1; for a
 * measure, its mean square over the residual mean square of its stratum.
 */
public final class Tests {
    private final Structure structure;
    private final List<Findings.TermTest> tests;

    private Tests(Structure structure, List<Findings.TermTest> tests) {
        this.structure = structure;
        this.tests = tests;
    }

    /** By the logistic model. */
    public static Tests byDeviance(Structure structure, LogisticPart logistic) {
        return new Tests(
                structure,
                structure.terms().stream()
                        .map(t -> byDeviance(structure, logistic, t))
                        .toList());
    }

    private static Findings.TermTest byDeviance(Structure structure, LogisticPart logistic, Term term) {
        var stratum = structure.testedIn(term);
        var deviance = logistic.devianceOf(term);
        if (stratum.isEmpty() || deviance.isEmpty()) {
            return untested(structure, term);
        }
        double dispersion = Math.max(1, logistic.dispersion(stratum.get()));
        int df = deviance.get().df();
        return tested(structure, term, stratum.get(), df, deviance.get().deviance() / df / dispersion, dispersion);
    }

    /**
     * By the analysis of variance.
     *
     * @param anova on the scale that is tested
     * @param least the variance that seeds alone would give on that scale, which no yardstick may fall below; 0 for a
     *     measure
     */
    public static Tests byVariance(Structure structure, AnovaPart anova, double least) {
        return new Tests(
                structure,
                structure.terms().stream()
                        .map(t -> byVariance(structure, anova, least, t))
                        .toList());
    }

    private static Findings.TermTest byVariance(Structure structure, AnovaPart anova, double least, Term term) {
        var stratum = structure.testedIn(term);
        if (stratum.isEmpty()) {
            return untested(structure, term);
        }
        int s = stratum.get();
        double yardstick = Math.max(least, anova.residualMeanSquare(s));
        int df = structure.parts(term).stream()
                .filter(p -> p.stratum() == s)
                .findFirst()
                .orElseThrow()
                .df();
        return tested(structure, term, s, df, anova.meanSquare(term, s) / yardstick, yardstick);
    }

    private static Findings.TermTest tested(
            Structure structure, Term term, int stratum, int df, double f, double dispersion) {
        int rest = structure.decomposition().residualDf(stratum);
        Double value = Numbers.orNull(f);
        return new Findings.TermTest(
                term.name(),
                term.factors(),
                structure.strataNames().get(stratum),
                "f",
                value,
                df,
                rest,
                dispersion,
                value == null ? null : Double.valueOf(Tail.f(value, df, rest)));
    }

    /** Where it lies, but without a test; in no stratum at all where it can't be estimated. */
    private static Findings.TermTest untested(Structure structure, Term term) {
        var part = structure.parts(term).stream().findFirst();
        String stratum = part.map(p -> structure.strataNames().get(p.stratum())).orElse(null);
        int df = part.map(p -> p.df()).orElse(0);
        return new Findings.TermTest(term.name(), term.factors(), stratum, "f", null, df, null, null, null);
    }

    public List<Findings.TermTest> findings() {
        return tests;
    }

    public Findings.TermTest of(Term term) {
        return tests.get(structure.terms().indexOf(term));
    }

    /** The test of a factor's own effect. */
    public Findings.TermTest of(String factor) {
        return of(new Term(List.of(factor)));
    }
}
