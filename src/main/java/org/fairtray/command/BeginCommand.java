package org.fairtray.command;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.fairtray.files.ReadyPlans;
import org.fairtray.files.Wording;
import org.fairtray.packs.Pack;
import org.fairtray.packs.PackFile;
import org.fairtray.packs.PackNames;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

@Command(
        name = "begin",
        mixinStandardHelpOptions = true,
        description = "Writes a commented plan.yaml to start from; makes the folder if there is none.")
final class BeginCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--like",
            paramLabel = "NAME",
            description = "Start from a ready plan: ${COMPLETION-CANDIDATES}. Or from the plan of a pack: FILE.zip.",
            completionCandidates = Names.class)
    private String like;

    @Option(names = "--replace", description = "Replace a plan that is there already.")
    private boolean replace;

    /** The names of the ready plans, for help. */
    static final class Names implements Iterable<String> {
        @Override
        public java.util.Iterator<String> iterator() {
            return ReadyPlans.names().iterator();
        }
    }

    /** What was written, for programs. */
    record Begun(String folder, List<String> files) {}

    @Override
    public Integer call() {
        if (like != null && like.toLowerCase(Locale.ROOT).endsWith(".zip")) {
            return likeAPack(PackFile.read(Path.of(like)));
        }
        trial.folder().writePlan(text(), replace);
        trial.print(
                new Begun(trial.path().toString(), List.of("plan.yaml")),
                List.of(
                        "Written: " + trial.path().resolve("plan.yaml") + ".",
                        "Fill it in with any text editor, then: fairtray check " + trial.path() + ", and fairtray lay "
                                + trial.path() + "."));
        return Fairtray.DONE;
    }

    /** The same trial on another bench: its plan to the byte, and nothing that was drawn or counted. */
    private Integer likeAPack(Pack pack) {
        trial.folder().writePlan(pack.files().get(PackNames.PLAN), replace);
        trial.print(
                new Begun(trial.path().toString(), List.of("plan.yaml")),
                List.of(
                        "Written: " + trial.path().resolve("plan.yaml") + ", byte for byte the plan of "
                                + Wording.quote(pack.title()) + ", so that both trials have one protocol.",
                        "There is no layout yet: fairtray lay " + trial.path()
                                + " draws one of its own, from a seed of its own."));
        return Fairtray.DONE;
    }

    private String text() {
        if (like == null) {
            return ReadyPlans.plain();
        }
        if (!ReadyPlans.names().contains(like)) {
            throw new ParameterException(trial.commandLine(), ReadyPlans.missing(like));
        }
        return ReadyPlans.like(like);
    }
}
