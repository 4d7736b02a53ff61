package org.fairtray.analysis.models;

import java.util.List;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;

/** The tests that verdicts rest on: each term against the units it was given to. */
public final class Tests {
    private final Structure structure;
    private final List<Findings.TermTest> tests;

    private Tests(Structure structure, List<Findings.TermTest> tests) {
        this.structure = structure;
        this.tests = tests;
    }

    /** Every term of a structure by one yardstick. */
    public static Tests by(Yardstick yardstick, Structure structure) {
        return new Tests(
                structure, structure.terms().stream().map(yardstick::test).toList());
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
