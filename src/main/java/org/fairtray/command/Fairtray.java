package org.fairtray.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.CancellationException;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.jobs.Version;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** The program: runs a command and turns what came of it into an exit status. */
@Command(
        name = "fairtray",
        description = "Designs fair germination trials, and says honestly what they showed.",
        mixinStandardHelpOptions = true,
        versionProvider = VersionLine.class,
        sortOptions = false,
        usageHelpAutoWidth = true,
        footer = {
            "",
            "DIR is the folder of a trial: plan.yaml, layout.csv, seal.json, sheets.pdf, key.pdf, readings.csv,"
                    + " results.json, report.html, size.html.",
            "Exit status: 0 done; 1 the trial or its files have a problem, or a pack differs, which is printed; 2 the command line is"
                    + " wrong; 70 a defect of ours; 130 stopped with Ctrl-C."
        },
        subcommands = {
            DemoCommand.class,
            BeginCommand.class,
            SizeCommand.class,
            LayCommand.class,
            SheetsCommand.class,
            AuditCommand.class,
            CheckCommand.class,
            AnalyseCommand.class,
            NextCommand.class,
            PackCommand.class,
            VerifyCommand.class,
            SeasonCommand.class,
            BenchCommand.class,
            SplitCommand.class,
            GatherCommand.class,
            PoolCommand.class,
            ArchiveCommand.class
        })
public final class Fairtray {
    /** The command did what it was asked for. */
    public static final int DONE = 0;

    /** The trial or its files have a problem, which was printed. */
    public static final int PROBLEM = 1;

    /** The command line is wrong. */
    public static final int USAGE = 2;

    /** Someone stopped it; {@link StopNotice} has said so. */
    public static final int STOPPED = 130;

    /** A defect of ours. */
    public static final int DEFECT = 70;

    /** Runs the program and ends the virtual machine with its exit status. */
    public static void main(String[] args) {
        System.setProperty("java.awt.headless", "true");
        var out = new PrintWriter(System.out, false, StandardCharsets.UTF_8);
        var err = new PrintWriter(System.err, false, StandardCharsets.UTF_8);
        int status = run(out, err, args);
        out.flush();
        err.flush();
        System.exit(status);
    }

    /**
     * Runs one command.
     *
     * @param out where results go
     * @param err where problems go
     * @return the exit status
     */
    public static int run(PrintWriter out, PrintWriter err, String... args) {
        var line = new CommandLine(new Fairtray())
                .setOut(out)
                .setErr(err)
                .setExecutionExceptionHandler((failure, command, parsed) -> explain(failure, command.getErr()));
        if (args.length == 0) {
            line.usage(err);
            return USAGE;
        }
        int status = line.execute(args);
        out.flush();
        err.flush();
        return status;
    }

    private static int explain(Exception failure, PrintWriter err) {
        if (failure instanceof ProblemsException problems) {
            problems.problems().stream().map(Problem::describe).forEach(err::println);
            return PROBLEM;
        }
        if (failure instanceof DoesNotFitException misfit) {
            misfit.reasons().forEach(err::println);
            return PROBLEM;
        }
        if (failure instanceof CancellationException) {
            return STOPPED;
        }
        reportDefect(failure, err);
        return DEFECT;
    }

    private static void reportDefect(Exception failure, PrintWriter err) {
        var trace = new StringWriter();
        failure.printStackTrace(new PrintWriter(trace));
        err.println("This is a defect of fairtray, not of your trial. Nothing of yours was changed by it.");
        err.println("Please report it with the lines below and, if you can share it, the trial's folder.");
        err.println("fairtray " + Version.text() + ", Java " + System.getProperty("java.version") + ", "
                + System.getProperty("os.name"));
        err.print(trace);
    }
}
