package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Disagreement;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Outcome;

/** What in the data of an outcome stands in the way of an answer. */
final class OutcomeWarnings {
    private OutcomeWarnings() {}

    static List<Findings.Warning> of(Outcome outcome, Findings.OutcomeFindings found, double alpha) {
        var warnings = new ArrayList<Findings.Warning>();
        if (found.trays() == 0) {
            warnings.add(new Findings.Warning(
                    "nothing read",
                    List.of(),
                    "No tray has a reading of " + outcome.name() + " on day " + outcome.day() + "."));
        } else if (!found.leftOut().isEmpty()) {
            warnings.add(new Findings.Warning(
                    "left out",
                    List.of(),
                    found.leftOut().size() + (found.leftOut().size() == 1 ? " tray is" : " trays are") + " left out of "
                            + outcome.name() + ": " + String.join(", ", found.leftOut()) + "."));
        }
        if (found.logistic() != null && found.logistic().separation() != null) {
            warnings.add(new Findings.Warning(
                    "separation", List.of(), found.logistic().separation()));
        }
        // Replicates are held against seeds alone; trays that differ by more are usual, and the analysis allows for
        // them.
        found.soundness().stream()
                .filter(c -> !c.sound() && !c.kind().equals("replicates"))
                .forEach(c -> warnings.add(new Findings.Warning(c.kind(), List.of(), c.sentence() + " " + c.remedy())));
        warnings.addAll(disagreements(outcome, found, alpha));
        return warnings;
    }

    /** Factors of which the model and the re-randomisation don't say the same. */
    private static List<Findings.Warning> disagreements(Outcome outcome, Findings.OutcomeFindings found, double alpha) {
        var warnings = new ArrayList<Findings.Warning>();
        for (var chance : found.rerandomisation()) {
            if (chance.factors().size() == 1) {
                found.tests().stream()
                        .filter(t -> t.term().equals(chance.term()))
                        .flatMap(t -> Disagreement.of(t.p(), chance, alpha).stream())
                        .forEach(s -> warnings.add(new Findings.Warning(
                                "tests disagree", chance.factors(), "On " + outcome.name() + ": " + s)));
            }
        }
        return warnings;
    }
}
