package org.fairtray.command;

import java.io.PrintWriter;
import java.util.List;
import org.fairtray.archive.Archive;
import org.fairtray.report.ResultsJson;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What every command on an archive shares. */
final class ArchiveOptions {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "ADDRESS", description = "The archive: a file, or a PostgreSQL address.")
    private String address;

    @Option(names = "--json", description = "Print the result as JSON, and nothing else, to standard output.")
    private boolean json;

    /** The archive, which has to be there. */
    Archive existing() {
        return Archive.existing(address);
    }

    /** The archive, made where there is none. */
    Archive open() {
        return Archive.open(address);
    }

    boolean json() {
        return json;
    }

    /** Prints a result for programs, or else for people. */
    void print(Record result, List<String> forPeople) {
        if (json) {
            out().print(ResultsJson.of(result));
        } else {
            forPeople.forEach(out()::println);
        }
        out().flush();
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
