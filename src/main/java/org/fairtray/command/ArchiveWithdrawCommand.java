package org.fairtray.command;

import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.files.Wording;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;

@Command(
        name = "withdraw",
        mixinStandardHelpOptions = true,
        description =
                "Takes a trial back: its pack is deleted and it is pooled no more; a line that it was there stays.")
final class ArchiveWithdrawCommand implements Callable<Integer> {
    @Mixin
    private ArchiveOptions archive;

    @Parameters(index = "1", paramLabel = "ID", description = "The trial's id, or the first 6 letters of it or more.")
    private String id;

    @Option(
            names = "--reason",
            paramLabel = "TEXT",
            required = true,
            description = "Why. It is kept, and shown to others.")
    private String reason;

    /** What was taken back, for programs. */
    record Withdrawn(String id, String trial, String reason) {}

    @Override
    public Integer call() {
        if (reason.isBlank()) {
            throw new ParameterException(archive.commandLine(), "--reason is empty: say why");
        }
        try (var opened = archive.existing()) {
            var trial = opened.withdraw(id, reason.strip()).trial();
            archive.print(
                    new Withdrawn(trial.id(), trial.title(), reason.strip()),
                    List.of("Withdrawn: " + trial.id().substring(0, ArchiveListCommand.SHORT) + ", "
                            + Wording.quote(trial.title())
                            + ". Its pack and what it brought to pooling are deleted."));
        }
        return Fairtray.DONE;
    }
}
