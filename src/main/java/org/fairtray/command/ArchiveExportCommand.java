package org.fairtray.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.archive.Archive;
import org.fairtray.archive.SharedTrial;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;

@Command(
        name = "export",
        mixinStandardHelpOptions = true,
        description = "Writes packs out of an archive, as they came in.")
final class ArchiveExportCommand implements Callable<Integer> {
    @Mixin
    private ArchiveOptions archive;

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "ID",
            description = "The trial's id, or the first 6 letters of it or more.")
    private String id;

    @Option(names = "--all", description = "All trials that these words are found in; all of them without any.")
    private boolean all;

    @Mixin
    private ArchiveSearchOptions which;

    @Option(names = "--to", paramLabel = "FOLDER", required = true, description = "Where the packs go.")
    private Path folder;

    /** What was written, for programs. */
    record Exported(String folder, int written, int there) {}

    private int written;
    private int there;

    @Override
    public Integer call() {
        if ((id == null) != all) {
            throw new ParameterException(archive.commandLine(), "say which: the ID of one trial, or --all");
        }
        try (var opened = archive.existing()) {
            makeFolder();
            if (all) {
                opened.find(which.search(false)).forEach(l -> export(opened, l.trial()));
            } else {
                export(opened, opened.trial(id).trial());
            }
        }
        archive.print(
                new Exported(folder.toString(), written, there),
                List.of("Written to " + folder + ": " + packs(written) + "."
                        + (there > 0 ? " There already: " + packs(there) + "." : "")));
        return Fairtray.DONE;
    }

    private static String packs(int number) {
        return number + (number == 1 ? " pack" : " packs");
    }

    private void makeFolder() {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new ProblemsException(new Problem(
                    folder.toString(),
                    0,
                    "that this folder can't be made",
                    "a folder you may write to",
                    Optional.empty()));
        }
    }

    private void export(Archive opened, SharedTrial trial) {
        var name = trial.id().substring(0, ArchiveListCommand.SHORT) + ".zip";
        var target = new TrialFolder(folder);
        var pack = opened.pack(trial.id());
        var before = target.bytes(name);
        if (before.isPresent() && Arrays.equals(before.get(), pack)) {
            there++;
            return;
        }
        if (before.isPresent()) {
            throw new ProblemsException(new Problem(
                    folder.resolve(name).toString(), 0, "another file of this name", "a new folder", Optional.empty()));
        }
        target.write(name, pack);
        written++;
    }
}
