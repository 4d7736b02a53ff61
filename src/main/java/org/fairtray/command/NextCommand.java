package org.fairtray.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.experience.Experience;
import org.fairtray.experience.Lessons;
import org.fairtray.files.PlanText;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.followup.Decision;
import org.fairtray.followup.FollowUp;
import org.fairtray.followup.Reach;
import org.fairtray.report.FollowUpText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "next",
        mixinStandardHelpOptions = true,
        description = "Plans the follow-up that would settle what an analysed trial left open; writes its plan.yaml.")
final class NextCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--into",
            paramLabel = "FOLDER",
            description = "Where the new plan.yaml is written; the folder 'next' inside DIR where you don't say.")
    private Path into;

    @Option(names = "--replace", description = "Replace a plan that is there already.")
    private boolean replace;

    /** What was planned, for programs; plan and folder are null where no follow-up is needed or none fits. */
    record Next(
            String outcome,
            List<Decision> decisions,
            List<Reach> reach,
            Integer trays,
            List<String> reasoning,
            String plan,
            String folder) {}

    @Override
    public Integer call() {
        var files = trial.folder().read();
        trial.printNotices(files);
        var findings = Analysed.findings(files, AnalysisOptions.USUAL);
        var followUp = FollowUp.of(files.trial(), findings, learned(files));
        var folder = into == null ? trial.path().resolve("next") : into;
        var text = followUp.plan()
                .map(p -> PlanText.of(p, FollowUpText.remarks(files.trial().title(), followUp)));
        text.ifPresent(t -> new TrialFolder(folder).writePlan(t, replace));
        trial.print(
                new Next(
                        followUp.outcome(),
                        followUp.decisions(),
                        followUp.reach(),
                        text.isPresent() ? followUp.trays() : null,
                        followUp.reasoning(),
                        text.orElse(null),
                        text.isPresent() ? folder.toString() : null),
                forPeople(files.trial().title(), followUp, folder));
        return Fairtray.DONE;
    }

    private static Optional<Experience> learned(TrialFiles files) {
        return files.trial()
                .outcomes()
                .get(0)
                .match(
                        c -> Lessons.of(files.trial(), TrialOptions.layout(files), files.readings(), c),
                        m -> Optional.empty());
    }

    private static List<String> forPeople(String title, FollowUp followUp, Path folder) {
        var lines = new ArrayList<>(FollowUpText.of(title, followUp));
        if (followUp.plan().isPresent()) {
            lines.add("");
            lines.add("Written: " + folder.resolve("plan.yaml") + ". Read it, then: fairtray lay " + folder + ".");
        }
        return lines;
    }
}
