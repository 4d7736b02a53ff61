package org.fairtray.command;

import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.report.SizingText;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.simulation.Precision;
import org.fairtray.sizing.simulation.SimulatedSizing;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

@Command(
        name = "size",
        mixinStandardHelpOptions = true,
        description = "What change could this plan see, and what would it take to see the one that you care about?")
final class SizeCommand implements Callable<Integer> {
    /** Whichever layout chance draws, its sizes are the same or nearly so. */
    private static final long LAYOUT_SEED = 1;

    /** Half the width of the interval of a power with which no more trials are invented. */
    private static final double SURE_ENOUGH = 0.02;

    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--simulations",
            paramLabel = "N",
            description =
                    "Simulate each term by N invented trials at most, fewer where that is sure enough;"
                            + " 1000 without it, of large trials fewer; 0 for formulae alone. Ctrl-C ends it with what was found so far.")
    private Integer simulations;

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "A whole number: the same plan and seed give the same invented trials anywhere.")
    private long seed;

    @Override
    public Integer call() {
        if (simulations != null && simulations < 0) {
            throw new ParameterException(
                    trial.commandLine(), "--simulations " + simulations + ": expected a number of trials, 0 or more");
        }
        var files = trial.folder().read();
        trial.printNotices(files);
        var layout = files.layout().orElseGet(() -> drawn(files.trial()));
        var sized = SizedLayout.of(files.trial(), layout);
        StopEarly.during(stopped -> {
            int most = simulations == null ? SimulatedSizing.usual(sized) : simulations;
            var sizing = most == 0 ? sized.sizing() : simulated(sized, most, stopped);
            trial.print(sizing, SizingText.of(sizing));
        });
        return Fairtray.DONE;
    }

    private Sizing simulated(SizedLayout sized, int most, BooleanSupplier stopped) {
        var progress = new ProgressLine(trial.commandLine().getErr(), Ansi.AUTO.enabled());
        var sizing = SimulatedSizing.of(
                sized,
                new Precision(most, SURE_ENOUGH),
                seed,
                Runtime.getRuntime().availableProcessors(),
                (term, done) -> progress.show(term + ": " + done + " invented trials"),
                stopped);
        progress.clear();
        return sizing;
    }

    private static Layout drawn(Trial plan) {
        return Randomisation.of(plan).draw(Generator.of(LAYOUT_SEED));
    }
}
