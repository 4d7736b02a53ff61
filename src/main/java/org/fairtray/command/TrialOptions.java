package org.fairtray.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.report.ResultsJson;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What every command on a trial's folder shares. */
final class TrialOptions {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Parameters(paramLabel = "DIR", description = "The trial's folder.")
    private Path folder;

    @Option(names = "--json", description = "Print the result as JSON, and nothing else, to standard output.")
    private boolean json;

    TrialFolder folder() {
        return new TrialFolder(folder);
    }

    /** The folder as it was typed, for messages. */
    Path path() {
        return folder;
    }

    boolean json() {
        return json;
    }

    CommandLine commandLine() {
        return spec.commandLine();
    }

    PrintWriter out() {
        return spec.commandLine().getOut();
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

    /** Says how the files were understood, where that may surprise. */
    void printNotices(TrialFiles files) {
        files.notices().forEach(n -> spec.commandLine().getErr().println("Note: " + n + "."));
        spec.commandLine().getErr().flush();
    }

    /** What is made of one of several trials; whatever is wrong with it is said with its folder's name. */
    static <T> T ofSeveral(Path folder, Function<TrialFiles, T> made) {
        try {
            return made.apply(new TrialFolder(folder).read());
        } catch (ProblemsException e) {
            throw e.in(folder.toString());
        } catch (DoesNotFitException e) {
            throw new DoesNotFitException(
                    e.reasons().stream().map(r -> folder + ": " + r).toList());
        }
    }
}
