package org.fairtray.command;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.design.Generator;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.ReadyPlans;
import org.fairtray.files.TrialFolder;
import org.fairtray.findings.Findings;
import org.fairtray.jobs.Analysed;
import org.fairtray.jobs.Laid;
import org.fairtray.report.ResultsJson;
import org.fairtray.sheets.Printing;
import org.fairtray.sheets.Sheets;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.sizing.InventedReadings;
import org.fairtray.trial.Treatment;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "demo",
        mixinStandardHelpOptions = true,
        description =
                "Makes an invented trial, lays it out with its sheets, reads it, analyses it and writes the report.")
final class DemoCommand implements Callable<Integer> {
    private static final String LABEL =
            "Invented data: made by a computer for this demonstration, no one counted these seeds.";
    private static final Printing SHEETS = new Printing(Paper.A4, Optional.empty());
    private static final long LAYOUT_SEED = 20260301;
    /** Chosen among several so that the demonstration shows all three verdicts. */
    private static final long READINGS_SEED = 20260316;

    /** What is true of the invented seeds, on the log-odds scale. */
    private static final InventedReadings TRUTH = new InventedReadings(
            t -> 1.9,
            t -> -0.55
                    + soaked(t) * (t.level("mat").equals("pad") ? 0.1 : 1.0)
                    + (t.level("mat").equals("coir") ? -0.15 : 0)
                    + (t.level("mat").equals("pad") ? -0.7 : 0)
                    + (t.level("cover").equals("3") ? 0.25 : 0),
            t -> 2.6 - 0.4 * soaked(t),
            Map.of("shelf", 0.15, "stack", 0.25, "tray", 0.2));

    @Spec
    private CommandSpec spec;

    @Parameters(
            paramLabel = "DIR",
            arity = "0..1",
            defaultValue = "fairtray-demo",
            description = "A new folder for it, or that of an earlier demo; ${DEFAULT-VALUE} without one.")
    private Path path;

    @Option(names = "--json", description = "Print the result as JSON, and nothing else, to standard output.")
    private boolean json;

    private static double soaked(Treatment treatment) {
        return treatment.level("soak").equals("8") ? 1 : 0;
    }

    @Override
    public Integer call() {
        AnalyseCommand.prepareReport();
        var folder = new TrialFolder(path);
        var plan = ReadyPlans.demo();
        boolean again = folder.hasPlan(plan);
        folder.writePlan(plan, again);
        var trial = folder.readPlan();
        var laid = Laid.of(folder, trial, LAYOUT_SEED, Optional.of(SHEETS), again, share -> {});
        var readings = TRUTH.of(trial, laid.layout(), Generator.of(READINGS_SEED));
        folder.writeReadings(trial, readings, List.of(), again);
        show(Analysed.of(folder.read(), new PhotoFolder(folder.path()), LABEL, AnalysisOptions.USUAL)
                .write(folder));
        return Fairtray.DONE;
    }

    private void show(Findings findings) {
        var out = spec.commandLine().getOut();
        if (json) {
            out.print(ResultsJson.of(findings));
        } else {
            out.println(LABEL);
            out.println();
            var report = path.resolve("report.html").toAbsolutePath();
            AnalyseCommand.forPeople(findings, report.toString()).forEach(out::println);
            out.println("Beside it are the sheets that such a trial takes to the rack: " + Sheets.SHEETS + ", and "
                    + Sheets.KEY + ", which is kept closed.");
        }
        out.flush();
    }
}
