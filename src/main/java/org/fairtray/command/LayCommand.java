package org.fairtray.command;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.jobs.Laid;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "lay",
        mixinStandardHelpOptions = true,
        description =
                "Draws which tray gets what, and writes layout.csv, seal.json and the sheets to print; frames.csv and"
                        + " rotation.csv where the plan asks for them.")
final class LayCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--seed",
            paramLabel = "N",
            description = "A whole number: the same plan and seed give the same layout anywhere. Else one is drawn.")
    private Long seed;

    @Mixin
    private SheetOptions sheets;

    @Option(
            names = "--replace",
            description = "Replace a layout, seal and sheets that are there already; readings are set aside under"
                    + " another name.")
    private boolean replace;

    @Override
    public Integer call() {
        var folder = trial.folder();
        var plan = folder.readPlan();
        long chosen = seed == null ? Laid.anySeed() : seed;
        var progress = new ProgressLine(trial.commandLine().getErr(), Ansi.AUTO.enabled());
        var laid = Laid.of(
                folder,
                plan,
                chosen,
                Optional.of(sheets.printing()),
                replace,
                share -> progress.show(Math.round(100 * share) + " % searched"));
        progress.clear();
        trial.print(laid.result(), laid.forPeople());
        return Fairtray.DONE;
    }
}
