package org.fairtray.command;

import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.files.PhotoFolder;
import org.fairtray.findings.Findings;
import org.fairtray.jobs.Analysed;
import org.fairtray.report.Report;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

@Command(
        name = "analyse",
        mixinStandardHelpOptions = true,
        description = "Says which factor changed what, by how much and how sure; writes results.json and report.html.")
final class AnalyseCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--bootstrap",
            paramLabel = "N",
            defaultValue = "0",
            description =
                    "Test each term of the mixed logistic models by N parametric bootstrap draws as well, such as 999;"
                            + " takes minutes. Ctrl-C stops it, and nothing is written.")
    private int bootstrap;

    @Override
    public Integer call() {
        if (bootstrap < 0) {
            throw new ParameterException(
                    trial.commandLine(), "--bootstrap " + bootstrap + ": expected a number of draws, 0 or more");
        }
        prepareReport();
        var folder = trial.folder();
        var files = folder.read();
        trial.printNotices(files);
        var progress = new ProgressLine(trial.commandLine().getErr(), Ansi.AUTO.enabled());
        var options = new AnalysisOptions(bootstrap, progress::show);
        var err = trial.commandLine().getErr();
        var analysed = StopNotice.during(() -> Analysed.of(files, new PhotoFolder(folder.path()), "", options), () -> {
            progress.clear();
            err.println("Stopped: nothing was written.");
            err.flush();
        });
        progress.clear();
        var findings = analysed.write(folder);
        trial.print(
                findings,
                forPeople(findings, trial.path().resolve("report.html").toString()));
        return Fairtray.DONE;
    }

    /** Drawing takes long to load; the other core can do that while this one reads and computes. */
    static void prepareReport() {
        var thread = new Thread(Report::prepare, "report");
        thread.setDaemon(true);
        thread.start();
    }

    static List<String> forPeople(Findings findings, String report) {
        var lines = Analysed.forPeople(findings);
        lines.add("");
        lines.add("Report: " + report);
        return lines;
    }
}
