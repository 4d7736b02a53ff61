package org.fairtray.command;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.jobs.Split;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "split",
        mixinStandardHelpOptions = true,
        description = "Gives every farm of a trial that several sow together a folder of its own, with its own sheets.")
final class SplitCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Mixin
    private SheetOptions options;

    @Option(
            names = "--by",
            paramLabel = "LEVEL",
            description = "The place level whose units are the farms; the outermost without it.")
    private String level;

    @Option(names = "--to", paramLabel = "FOLDER", description = "Where the folders are made; in DIR without it.")
    private Path to;

    @Option(names = "--no-sheets", description = "Write no sheets to print.")
    private boolean noSheets;

    @Option(names = "--replace", description = "Replace files that are there already.")
    private boolean replace;

    @Override
    public Integer call() {
        var split = Split.of(
                trial.folder(),
                Optional.ofNullable(level),
                Optional.ofNullable(to).orElse(trial.path()),
                noSheets ? Optional.empty() : Optional.of(options.printing()),
                replace);
        trial.print(split, split.forPeople());
        return Fairtray.DONE;
    }
}
