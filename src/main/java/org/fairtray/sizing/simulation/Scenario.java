package org.fairtray.sizing.simulation;

import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import org.fairtray.design.Fault;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Treatment;

/**
 * What is true in the trials that ask for one term: the trays that have the last level of all its factors have a rate that
 * is worthwhile above the control's, at most 1; all others have the control's.
 *
 * @param rates one for each tray
 * @param noTest why the layout can't test the term; empty where it can
 */
record Scenario(Term term, double[] rates, Optional<String> noTest) {

    /** The last level is the last in the plan that isn't the control's. */
    static Scenario of(Structure structure, Term term, Expectations expected) {
        var trial = structure.trial();
        var last = new HashMap<String, String>();
        for (String factor : term.factors()) {
            var levels = trial.levelsFromControl(trial.factor(factor));
            last.put(factor, levels.get(levels.size() - 1));
        }
        var raised = new Treatment(last);
        double usual = expected.controlRate().getAsDouble();
        double more = Math.min(1, usual + expected.worthwhile().getAsDouble());
        double[] rates = structure.trays().stream()
                .mapToDouble(t -> t.treatment().includes(raised) ? more : usual)
                .toArray();
        return new Scenario(
                term,
                rates,
                structure.testedIn(term).isPresent() ? Optional.empty() : Optional.of(why(structure, term)));
    }

    private static String why(Structure structure, Term term) {
        return Faults.of(structure).stream()
                .filter(f -> f.factors().containsAll(term.factors()))
                .map(Fault::sentence)
                .findFirst()
                .orElse("Too few trays are left over to hold a difference of " + term.name() + " against.");
    }

    boolean isTestable() {
        return noTest.isEmpty();
    }

    /** Nothing simulated yet. */
    List<SimulatedPower> start(List<Judge> judges) {
        return judges.stream()
                .map(j -> new SimulatedPower(term.name(), j, 0, 0, noTest))
                .toList();
    }
}
