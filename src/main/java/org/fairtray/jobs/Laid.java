package org.fairtray.jobs;

import java.security.SecureRandom;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
import org.fairtray.journal.JournalFile;
import org.fairtray.sheets.Printing;
import org.fairtray.sheets.Sheets;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.SeedsSown;
import org.fairtray.trial.Trial;

/** A layout that was drawn and written. */
public record Laid(
        Randomisation.Drawn drawn,
        Randomisation randomisation,
        DesignName name,
        List<String> beside,
        Optional<Sheets> sheets,
        LaidOut result) {
    /** Every whole number up to here is exact in the number type that most readers of JSON use. */
    private static final long LARGEST_SEED = 1L << 53;

    /** What was laid out, for programs. */
    public record LaidOut(
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
    public record Searched(String of, double efficiency, Double bestPossible, List<String> confused) {
        static Searched of(Quality quality) {
            return new Searched(
                    quality.of(),
                    quality.efficiency(),
                    quality.best().isPresent() ? quality.best().getAsDouble() : null,
                    quality.confused());
        }
    }

    /** A seed for a grower who gives none. */
    public static long anySeed() {
        return new SecureRandom().nextLong(LARGEST_SEED);
    }

    /**
     * Draws a layout and writes it.
     *
     * @param printing how its sheets are wanted; none are written without
     * @param progress gets the share of a search that is done, from 0 to 1
     */
    public static Laid of(
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
        JournalFile.takeAwayUnused(folder.path());
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

    public Layout layout() {
        return drawn.layout();
    }

    /** What was drawn and written, line by line. */
    public List<String> forPeople() {
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
        sheets.map(Sheets::describe).ifPresent(lines::add);
        return lines;
    }
}
