package org.fairtray.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.audit.Audit;
import org.fairtray.files.PlanText;
import org.fairtray.files.TrialFolder;
import org.fairtray.jobs.Needed;
import org.fairtray.trial.Trial;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

@Command(
        name = "audit",
        mixinStandardHelpOptions = true,
        description =
                "Is this trial fair? Names what is confounded, not repeated or not randomised, and what mends it.")
final class AuditCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--fair-plan",
            paramLabel = "DIR",
            description =
                    "Where every treatment has one tray: write the plan of its fair version into this new folder.")
    private Path fairPlan;

    @Override
    public Integer call() {
        var files = trial.folder().read();
        trial.printNotices(files);
        var audit = Audit.of(files.trial(), Needed.layout(files), files.sealState(), files.readings());
        var lines = forPeople(files.trial().title(), audit);
        lines.addAll(fairVersion(files.trial(), Audit.fairVersion(files.trial(), Needed.layout(files))));
        trial.print(audit, lines);
        return Fairtray.DONE;
    }

    private List<String> fairVersion(Trial plan, Optional<Trial> fair) {
        if (fair.isEmpty()) {
            if (fairPlan != null) {
                throw refused("--fair-plan is for a trial with one tray of each treatment");
            }
            return List.of();
        }
        var title = plan.title().replaceAll("\\R", " ");
        var text = PlanText.of(fair.get(), List.of("The fair version of: " + title));
        if (fairPlan == null) {
            var lines = new ArrayList<>(List.of("", "Its plan.yaml (--fair-plan DIR writes it):", ""));
            lines.addAll(text.lines().toList());
            return lines;
        }
        if (Files.exists(fairPlan.resolve("plan.yaml"))) {
            throw refused(fairPlan + " has a plan already; name a new folder");
        }
        new TrialFolder(fairPlan).writePlan(text, false);
        return List.of("", "Written: " + fairPlan.resolve("plan.yaml") + ". Next: fairtray lay " + fairPlan + ".");
    }

    private ParameterException refused(String why) {
        return new ParameterException(trial.commandLine(), why);
    }

    private static List<String> forPeople(String title, Audit audit) {
        var lines = new ArrayList<String>();
        lines.add(
                audit.fair()
                        ? title + ": nothing unfair was found in the layout."
                        : title + ": " + audit.findings().size() + " found.");
        for (var finding : audit.findings()) {
            lines.add("");
            lines.add(finding.kind()
                    + (finding.factors().isEmpty() ? "" : " (" + String.join(", ", finding.factors()) + ")"));
            lines.add("  " + finding.sentence());
            lines.add("  What mends it: " + finding.remedy());
        }
        if (!audit.advice().isEmpty()) {
            lines.add("");
            lines.addAll(audit.advice());
        }
        if (!audit.notes().isEmpty()) {
            lines.add("");
            lines.addAll(audit.notes());
        }
        return lines;
    }
}
