package org.fairtray.jobs;

import java.util.List;
import java.util.Optional;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.experience.Experience;
import org.fairtray.experience.Lessons;
import org.fairtray.files.PlanText;
import org.fairtray.files.TrialFiles;
import org.fairtray.followup.FollowUp;
import org.fairtray.report.FollowUpText;

/**
 * The trial after an analysed one, nothing written.
 *
 * @param trial the title of the analysed trial
 * @param plan the text of the next plan.yaml, where one is needed and fits
 */
public record Planned(String trial, FollowUp followUp, Optional<String> plan) {

    /** Analyses what a trial's folder holds, and plans what would settle the rest. */
    public static Planned after(TrialFiles files) {
        var findings = Analysed.findings(files, AnalysisOptions.USUAL);
        var title = files.trial().title();
        var followUp = FollowUp.of(files.trial(), findings, learned(files));
        return new Planned(
                title, followUp, followUp.plan().map(p -> PlanText.of(p, FollowUpText.remarks(title, followUp))));
    }

    /** What was planned and why, line by line. */
    public List<String> forPeople() {
        return FollowUpText.of(trial, followUp);
    }

    private static Optional<Experience> learned(TrialFiles files) {
        return files.trial()
                .outcomes()
                .get(0)
                .match(
                        c -> Lessons.of(files.trial(), Needed.layout(files), files.readings(), c),
                        m -> Optional.empty());
    }
}
