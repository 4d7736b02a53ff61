package org.fairtray.command;

import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.fairtray.archive.Listed;
import org.fairtray.archive.SharedTrial;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.fairtray.files.Wording;
import org.fairtray.report.ResultsJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(name = "list", mixinStandardHelpOptions = true, description = "Lists the trials of an archive, by title.")
final class ArchiveListCommand implements Callable<Integer> {
    /** So much of an id is shown; more where it is needed. */
    static final int SHORT = 12;

    @Mixin
    private ArchiveOptions archive;

    @Mixin
    private ArchiveSearchOptions which;

    @Option(names = "--withdrawn", description = "List those that were withdrawn instead.")
    private boolean withdrawn;

    /** A trial as --json prints it. */
    private record Line(
            String id,
            String trialId,
            String title,
            String crop,
            String question,
            int trays,
            String outcome,
            boolean sealed,
            String version,
            String protocol,
            String farm,
            List<Factor> factors,
            List<Condition> conditions,
            String added,
            String withdrawn,
            String reason) {

        static Line of(Listed listed) {
            var trial = listed.trial();
            return new Line(
                    trial.id(),
                    trial.trialId(),
                    trial.title(),
                    trial.crop(),
                    trial.question(),
                    trial.trays(),
                    trial.outcome(),
                    trial.sealed(),
                    trial.version(),
                    trial.protocol(),
                    trial.farm().orElse(null),
                    trial.factors().stream().map(Factor::of).toList(),
                    trial.conditions(),
                    listed.added().toString(),
                    listed.withdrawal().map(w -> w.at().toString()).orElse(null),
                    listed.withdrawal().map(Listed.Withdrawal::reason).orElse(null));
        }
    }

    private record Factor(String name, String unit, List<String> levels) {
        static Factor of(Varied factor) {
            return new Factor(factor.name(), factor.unit().orElse(null), factor.levels());
        }
    }

    @Override
    public Integer call() {
        try (var opened = archive.existing()) {
            var found = opened.find(which.search(withdrawn));
            if (archive.json()) {
                printJson(found);
            } else {
                printForPeople(found);
            }
        }
        archive.out().flush();
        return Fairtray.DONE;
    }

    /** Trial by trial, since there may be very many. */
    private void printJson(Stream<Listed> found) {
        archive.out().print("{\"trials\": [");
        var before = new String[] {"\n"};
        found.forEach(listed -> {
            archive.out().print(before[0] + ResultsJson.of(Line.of(listed)).strip());
            before[0] = ",\n";
        });
        archive.out().println("]}");
    }

    private void printForPeople(Stream<Listed> found) {
        var count = new int[1];
        found.forEach(listed -> {
            forPeople(listed).forEach(archive.out()::println);
            count[0]++;
        });
        archive.out()
                .println(
                        switch (count[0]) {
                            case 0 -> withdrawn ? "None was withdrawn." : "No such trial is there.";
                            case 1 -> "1 trial.";
                            default -> count[0] + " trials.";
                        });
    }

    private static List<String> forPeople(Listed listed) {
        var trial = listed.trial();
        var first = trial.id().substring(0, SHORT) + "  " + day(listed.added()) + "  " + Wording.visible(trial.title());
        var indent = " ".repeat(SHORT + 2);
        var second = listed.withdrawal()
                .map(w -> "withdrawn " + day(w.at()) + ": " + Wording.visible(w.reason()))
                .orElseGet(() -> about(trial));
        return List.of(first, indent + second);
    }

    private static String day(Instant time) {
        return time.toString().substring(0, 10);
    }

    private static String about(SharedTrial trial) {
        var text = new StringBuilder(trial.crop().isEmpty() ? "" : Wording.visible(trial.crop()) + ", ");
        text.append(trial.trays()).append(trial.trays() == 1 ? " tray" : " trays");
        text.append(trial.sealed() ? ", sealed" : ", not sealed");
        for (var factor : trial.factors()) {
            text.append("; ").append(Wording.visible(factor.name()));
            factor.unit()
                    .ifPresent(u -> text.append(" (").append(Wording.visible(u)).append(')'));
            text.append(": ").append(Wording.list(factor.levels()));
        }
        trial.farm().ifPresent(f -> text.append("; from ").append(Wording.visible(f)));
        return text.toString();
    }
}
