package org.fairtray.command;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.audit.Audit;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(
        name = "audit",
        mixinStandardHelpOptions = true,
        description =
                "Is this trial fair? Names what is confounded, not repeated or not randomised, and what mends it.")
final class AuditCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Override
    public Integer call() {
        var files = trial.folder().read();
        trial.printNotices(files);
        var audit = Audit.of(files.trial(), TrialOptions.layout(files), files.sealState());
        trial.print(audit, forPeople(files.trial().title(), audit));
        return Fairtray.DONE;
    }

    static List<String> forPeople(String title, Audit audit) {
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
        return lines;
    }
}
