package org.fairtray.command;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import org.fairtray.experience.Assurance;
import org.fairtray.experience.Experience;
import org.fairtray.files.ProblemsException;
import org.fairtray.jobs.Needed;
import org.fairtray.jobs.Version;
import org.fairtray.network.Earlier;
import org.fairtray.report.SizingPage;
import org.fairtray.report.SizingText;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.simulation.Precision;
import org.fairtray.sizing.simulation.SimulatedSizing;
import org.fairtray.sizing.spending.Limits;
import org.fairtray.sizing.spending.Sizes;
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
    /** Half the width of the interval of a power with which no more trials are invented. */
    private static final double SURE_ENOUGH = 0.02;

    private static final String PAGE = "size.html";

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

    @Option(
            names = "--from",
            paramLabel = "OTHER",
            description =
                    "Expect what the readings of this trial show, with how unsure that is: a trial's folder, a pack, or"
                            + " an archive, of which the trials of the plan's crop and outcome are taken.")
    private String other;

    @Option(names = "--money", paramLabel = "N", description = "What the trial may cost, in the plan's currency.")
    private Double money;

    @Option(names = "--minutes", paramLabel = "N", description = "Minutes there are for counting on a day.")
    private Double minutes;

    @Option(names = "--grams", paramLabel = "N", description = "Grams of seed there are.")
    private Double grams;

    @Override
    public Integer call() {
        if (simulations != null && simulations < 0) {
            throw new ParameterException(
                    trial.commandLine(), "--simulations " + simulations + ": expected a number of trials, 0 or more");
        }
        var files = trial.folder().read();
        trial.printNotices(files);
        var layout = Needed.layoutOrDrawn(files);
        var learned = other == null ? Optional.<Experience>empty() : Optional.of(earlier(files.trial()));
        var assurance = learned.map(l -> new Assurance(files.trial(), l));
        var sized = assurance.map(a -> a.sized(layout)).orElseGet(() -> SizedLayout.of(files.trial(), layout));
        var spending = Sizes.of(sized, limits(), minutesLearned(learned));
        StopEarly.during(stopped -> {
            int most = simulations == null ? SimulatedSizing.usual(sized) : simulations;
            var sizing = most == 0 ? sized.sizing() : simulated(sized, most, stopped);
            var all = sizing.beside(spending.orElse(null))
                    .after(assurance.map(a -> a.earlier(sized)).orElse(null));
            trial.folder().write(PAGE, SizingPage.of(all, Version.text()).html().getBytes(StandardCharsets.UTF_8));
            var lines = new ArrayList<>(SizingText.of(all));
            lines.addAll(List.of("", "Page: " + trial.path().resolve(PAGE)));
            trial.print(all, lines);
        });
        return Fairtray.DONE;
    }

    private Limits limits() {
        return new Limits(limit("--money", money), limit("--minutes", minutes), limit("--grams", grams));
    }

    private OptionalDouble limit(String option, Double value) {
        if (value != null && !(value > 0)) {
            throw new ParameterException(trial.commandLine(), option + " " + value + ": expected a number above 0");
        }
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    private static OptionalDouble minutesLearned(Optional<Experience> learned) {
        return learned.flatMap(Experience::minutesPerFrame)
                .map(m -> OptionalDouble.of(m.value()))
                .orElse(OptionalDouble.empty());
    }

    /** Whatever is wrong with the other trial is said with its folder's name. */
    private Experience earlier(Trial plan) {
        try {
            return Earlier.of(plan, other);
        } catch (ProblemsException e) {
            throw e.in(other);
        }
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
}
