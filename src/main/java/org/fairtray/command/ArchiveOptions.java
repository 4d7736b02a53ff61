package org.fairtray.command;

import java.io.PrintWriter;
import org.fairtray.archive.Archive;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What every command on an archive shares. */
final class ArchiveOptions {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "ADDRESS", description = "The archive: a file, or a PostgreSQL address.")
    private String address;

    /** The archive, which has to be there. */
    Archive existing() {
        return Archive.existing(address);
    }

    /** The archive, made where there is none. */
    Archive open() {
        return Archive.open(address);
    }

    CommandLine commandLine() {
        return spec.commandLine();
    }

    PrintWriter out() {
        return spec.commandLine().getOut();
    }

    PrintWriter err() {
        return spec.commandLine().getErr();
    }
}
