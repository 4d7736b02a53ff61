package org.fairtray.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.files.TrialFolder;
import org.fairtray.followup.Decision;
import org.fairtray.followup.Reach;
import org.fairtray.jobs.Planned;
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
        var planned = Planned.after(files);
        var followUp = planned.followUp();
        var folder = into == null ? trial.path().resolve("next") : into;
        var text = planned.plan();
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
                forPeople(planned, folder));
        return Fairtray.DONE;
    }

    private static List<String> forPeople(Planned planned, Path folder) {
        var lines = new ArrayList<>(planned.forPeople());
        if (planned.plan().isPresent()) {
            lines.add("");
            lines.add("Written: " + folder.resolve("plan.yaml") + ". Read it, then: fairtray lay " + folder + ".");
        }
        return lines;
    }
}
