package org.fairtray.command;

import java.util.concurrent.Callable;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.report.SizingText;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(
        name = "size",
        mixinStandardHelpOptions = true,
        description = "What change could this plan see, and what would it take to see the one that you care about?")
final class SizeCommand implements Callable<Integer> {
    /** Whichever layout chance draws, its sizes are the same or nearly so. */
    private static final long LAYOUT_SEED = 1;

    @Mixin
    private TrialOptions trial;

    @Override
    public Integer call() {
        var files = trial.folder().read();
        trial.printNotices(files);
        var layout = files.layout().orElseGet(() -> drawn(files.trial()));
        var sizing = SizedLayout.of(files.trial(), layout).sizing();
        trial.print(sizing, SizingText.of(sizing));
        return Fairtray.DONE;
    }

    private static Layout drawn(Trial plan) {
        return Randomisation.of(plan).draw(Generator.of(LAYOUT_SEED));
    }
}
