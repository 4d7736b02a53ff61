package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Trial;

/** The analysis of a whole trial. */
public final class Analysis {
    private Analysis() {}

    /**
     * Analyses every outcome of a trial.
     *
     * @param trial the plan
     * @param layout which tray stood where and got what; one tray or more
     * @param readings what was read
     * @param sealing the seal as it stands
     * @param version of the program
     */
    public static Findings of(Trial trial, Layout layout, List<Reading> readings, Sealing sealing, String version) {
        return of(trial, layout, readings, sealing, version, AnalysisOptions.USUAL);
    }

    /**
     * The same with what was asked for beside the plan.
     *
     * @throws java.util.concurrent.CancellationException if the thread is interrupted; it then still is
     */
    public static Findings of(
            Trial trial,
            Layout layout,
            List<Reading> readings,
            Sealing sealing,
            String version,
            AnalysisOptions options) {
        var tallies = Tallies.of(trial, readings);
        var structure = Structure.of(trial, layout.trays());
        var faults = Faults.of(structure);
        var progress = tallies.progress(layout);
        var outcomes =
                InParallel.each(trial.outcomes(), o -> OutcomeAnalysis.of(structure, tallies, progress, o, options));
        var warnings = new ArrayList<Findings.Warning>();
        if (!sealing.holds()) {
            warnings.add(new Findings.Warning(
                    "not randomised", List.of(), sealing.finding().sentence()));
        }
        if (structure.leavesInteractionsOut()) {
            warnings.add(leftOut(structure));
        }
        faults.forEach(f ->
                warnings.add(new Findings.Warning(f.kind().label(), f.factors(), f.sentence() + " " + f.remedy())));
        for (int i = 0; i < outcomes.size(); i++) {
            warnings.addAll(OutcomeWarnings.of(
                    trial.outcomes().get(i), outcomes.get(i), trial.choices().alpha()));
        }
        return new Findings(version, trial.title(), sealing.holds(), sealing.finding(), outcomes, warnings);
    }

    private static Findings.Warning leftOut(Structure structure) {
        int highest = structure.highestOrder();
        return new Findings.Warning(
                "confounded",
                structure.trial().factorNames(),
                "The plan asks for more than these trays can tell: what one factor does can't be told apart from what "
                        + (highest + 1) + " others do acting together. It is judged as if "
                        + (highest == 1 ? "no two factors acted together." : "no " + (highest + 1) + " acted together.")
                        + " To say so in the plan: analysis: {interactions: " + highest + "}.");
    }
}
