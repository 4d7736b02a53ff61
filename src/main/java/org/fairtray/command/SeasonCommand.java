package org.fairtray.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.fairtray.files.TrialFiles;
import org.fairtray.jobs.Needed;
import org.fairtray.report.ResultsJson;
import org.fairtray.report.SeasonText;
import org.fairtray.season.Candidate;
import org.fairtray.season.Season;
import org.fairtray.sizing.SizedLayout;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "season",
        mixinStandardHelpOptions = true,
        description = "Several plans and one rack: which to sow, how often and in which order, to answer most.")
final class SeasonCommand implements Callable<Integer> {
    private static final int DAYS_A_WEEK = 7;

    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "DIR", arity = "1..*", description = "The folders of the plans.")
    private List<Path> folders;

    @Option(
            names = "--weeks",
            paramLabel = "N",
            defaultValue = "8",
            description = "How long the rack is free; ${DEFAULT-VALUE} without it.")
    private int weeks;

    @Option(
            names = "--cleaning",
            paramLabel = "DAYS",
            defaultValue = "1",
            description = "Days from the last count of one trial to sowing the next; ${DEFAULT-VALUE} without it.")
    private int cleaning;

    @Option(names = "--json", description = "Print the result as JSON, and nothing else, to standard output.")
    private boolean json;

    @Override
    public Integer call() {
        if (weeks < 1 || weeks > 104 || cleaning < 0) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--weeks " + weeks + " --cleaning " + cleaning + ": expected 1 to 104 weeks, 0 days or more");
        }
        var candidates = new ArrayList<Candidate>();
        var asides = new ArrayList<String>();
        for (var folder : folders) {
            var candidate = TrialOptions.ofSeveral(folder, files -> candidate(folder, files));
            if (candidate.layout().assumptions().possible()
                    && candidate.layout().tests().stream()
                            .anyMatch(t -> t.term().isMain())) {
                candidates.add(candidate);
            } else {
                asides.add(folder.toString());
            }
        }
        var season = Season.of(candidates, weeks * DAYS_A_WEEK);
        var out = spec.commandLine().getOut();
        if (json) {
            out.print(ResultsJson.of(season));
        } else {
            SeasonText.of(season).forEach(out::println);
        }
        out.flush();
        if (!asides.isEmpty()) {
            spec.commandLine()
                    .getErr()
                    .println(asides.stream()
                                    .collect(Collectors.joining(", ", "Note: nothing can be worked out for ", "."))
                            + " See fairtray size.");
            spec.commandLine().getErr().flush();
        }
        return Fairtray.DONE;
    }

    private Candidate candidate(Path folder, TrialFiles files) {
        var plan = files.trial();
        var layout = Needed.layoutOrDrawn(files);
        int last = plan.counting().days().get(plan.counting().days().size() - 1);
        return new Candidate(folder.toString(), SizedLayout.of(plan, layout), Math.max(1, last + cleaning));
    }
}
