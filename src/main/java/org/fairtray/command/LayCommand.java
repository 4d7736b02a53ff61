package org.fairtray.command;

import java.security.SecureRandom;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.fairtray.design.DesignName;
import org.fairtray.design.FrameDraw;
import org.fairtray.design.Generator;
import org.fairtray.design.Quality;
import org.fairtray.design.Randomisation;
import org.fairtray.design.RotationSchedule;
import org.fairtray.design.Structure;
import org.fairtray.files.Draw;
import org.fairtray.files.HandlingFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.sheets.Printing;
import org.fairtray.sheets.Sheets;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.SeedsSown;
import org.fairtray.trial.Trial;
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
    /** Every whole number up to here is exact in the number type that most readers of JSON use. */
    private static final long LARGEST_SEED = 1L << 53;

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

    /** What was laid out, for programs. */
    record LaidOut(
            String trial,
            int trays,
            int emptyPlaces,
            String design,
            long seed,
            String generator,
            List<String> files,
            String readingsSetAside,
            List<Searched> searched) {}

    /** How good a part of a layout is that had to be searched for: {@link Quality}, for programs. */
    record Searched(String of, double efficiency, Double bestPossible, List<String> confused) {
        static Searched of(Quality quality) {
            return new Searched(
                    quality.of(),
                    quality.efficiency(),
                    quality.best().isPresent() ? quality.best().getAsDouble() : null,
                    quality.confused());
        }
    }

    @Override
    public Integer call() {
        var folder = trial.folder();
        var plan = folder.readPlan();
        long chosen = seed == null ? new SecureRandom().nextLong(LARGEST_SEED) : seed;
        var progress = new ProgressLine(trial.commandLine().getErr(), Ansi.AUTO.enabled());
        var laid = lay(
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

    /** A layout that was drawn and written. */
    record Laid(
            Randomisation.Drawn drawn,
            Randomisation randomisation,
            DesignName name,
            List<String> beside,
            Optional<Sheets> sheets,
            LaidOut result) {
        Layout layout() {
            return drawn.layout();
        }

        List<String> forPeople() {
            var lines = new ArrayList<String>();
            lines.add(result.trial);
            lines.add(name.sentence());
            lines.addAll(randomisation.describe());
            drawn.qualities().forEach(q -> lines.addAll(q.describe()));
            lines.addAll(beside);
            lines.add(result.trays + " trays"
                    + (result.emptyPlaces == 0 ? "." : "; " + result.emptyPlaces + " places stay empty."));
            lines.add("Seed " + result.seed + " (" + result.generator + "), kept in seal.json.");
            if (result.readingsSetAside != null) {
                lines.add("Readings of the layout before were set aside as " + result.readingsSetAside + ".");
            }
            lines.add("Written: " + String.join(", ", result.files) + ".");
            sheets.map(SheetsCommand::describe).ifPresent(lines::add);
            return lines;
        }
    }

    /**
     * Draws a layout and writes it.
     *
     * @param printing how its sheets are wanted; none are written without
     * @param progress gets the share of a search that is done, from 0 to 1
     */
    static Laid lay(
            TrialFolder folder,
            Trial plan,
            long seed,
            Optional<Printing> printing,
            boolean replace,
            Consumer<Double> progress) {
        var randomisation = Randomisation.of(plan);
        var drawn = randomisation.draw(Generator.of(seed), progress);
        var layout = drawn.layout();
        var handling = new Handling(FrameDraw.of(plan, layout, seed), RotationSchedule.of(plan, layout, seed));
        var sheets = printing.map(p -> new Sheets(plan, layout, handling, p));
        var printed = sheets.map(Sheets::files).orElse(Map.of());
        var time = Instant.now().truncatedTo(ChronoUnit.SECONDS).toString();
        var draw = new Draw(
                seed,
                Generator.NAME,
                plan.restrictions().stream().map(Restriction::words).toList(),
                time,
                Version.text());
        var written = folder.writeLayout(plan, layout, draw, handling, printed, replace);
        var files = new ArrayList<>(List.of("layout.csv", "seal.json"));
        files.addAll(HandlingFiles.names(plan.place(), handling));
        files.addAll(printed.keySet());
        var name = DesignName.of(Structure.of(plan, layout.trays()));
        var result = new LaidOut(
                plan.title(),
                layout.trays().size(),
                plan.place().trays() - layout.trays().size(),
                name.name(),
                seed,
                Generator.NAME,
                files,
                written.readingsSetAside().orElse(null),
                drawn.qualities().stream().map(Searched::of).toList());
        return new Laid(drawn, randomisation, name, beside(plan, layout, handling), sheets, result);
    }

    private static List<String> beside(Trial plan, Layout layout, Handling handling) {
        var lines = new ArrayList<String>();
        if (!handling.frames().isEmpty()) {
            lines.add("Counting frames lie at random in each tray: frames.csv has each frame's front left corner, in cm"
                    + " from the tray's left and front edges.");
        }
        if (!handling.moves().isEmpty()) {
            lines.add(RotationSchedule.describe(plan, layout, handling.moves()));
        }
        SeedsSown.of(plan).map(SeedsSown::sentence).ifPresent(lines::add);
        return lines;
    }
}
