package org.fairtray.command;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

@Command(
        name = "archive",
        mixinStandardHelpOptions = true,
        description = "Shared trials of many growers in one place: kept once each, found again.",
        footer = {
            "",
            "ADDRESS is a file's name, or postgresql://USER@HOST/DATABASE for a PostgreSQL server; its password comes from"
                    + " PGPASSWORD or ~/.pgpass."
        },
        subcommands = {
            ArchiveAddCommand.class,
            ArchiveListCommand.class,
            ArchiveExportCommand.class,
            ArchiveWithdrawCommand.class,
            ArchiveSiteCommand.class
        })
final class ArchiveCommand implements Runnable {
    @Spec
    private CommandSpec spec;

    @Override
    public void run() {
        throw new ParameterException(
                spec.commandLine(),
                "say what is to be done: "
                        + String.join(", ", spec.subcommands().keySet()));
    }
}
