package org.fairtray.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.jobs.Needed;
import org.fairtray.trial.Seal;
import org.fairtray.trial.SeedsSown;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Reads the whole trial strictly and reports every problem.")
final class CheckCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    /** What a check found, for programs; {@code changed} says what was changed after sealing, null where nothing was. */
    record Checked(boolean sound, String trial, List<Found> problems, String changed) {}

    /** A problem, for programs; line 0 is the file as a whole, nearest is null where nothing is near. */
    record Found(String file, int line, String found, String expected, String nearest) {}

    @Override
    public Integer call() {
        try {
            var files = trial.folder().read();
            trial.printNotices(files);
            trial.print(
                    new Checked(
                            true,
                            files.trial().title(),
                            List.of(),
                            brokenSeal(files).orElse(null)),
                    sound(files));
            return Fairtray.DONE;
        } catch (ProblemsException e) {
            if (!trial.json()) {
                throw e;
            }
            trial.print(
                    new Checked(
                            false,
                            null,
                            e.problems().stream().map(CheckCommand::found).toList(),
                            null),
                    List.of());
            return Fairtray.PROBLEM;
        }
    }

    private static Found found(Problem problem) {
        return new Found(
                problem.file(),
                problem.line(),
                problem.found(),
                problem.expected(),
                problem.nearest().orElse(null));
    }

    /** What was changed after sealing, if anything was. */
    private static Optional<String> brokenSeal(TrialFiles files) {
        return files.seal().isPresent() && files.sealState() != Seal.State.HOLDS
                ? Optional.of(Needed.sealing(files).sentence())
                : Optional.empty();
    }

    private static List<String> sound(TrialFiles files) {
        var lines = new ArrayList<String>();
        lines.add(files.trial().title() + ": nothing wrong.");
        lines.add(files.layout()
                .map(l -> "layout.csv: " + l.trays().size() + " trays.")
                .orElse("layout.csv: none yet."));
        lines.add(
                files.readings().isEmpty()
                        ? "readings.csv: no readings yet."
                        : "readings.csv: " + files.readings().size() + " readings.");
        brokenSeal(files).ifPresent(s -> lines.add("seal.json: " + s));
        SeedsSown.of(files.trial()).map(SeedsSown::sentence).ifPresent(lines::add);
        return lines;
    }
}
