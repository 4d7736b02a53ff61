package org.fairtray.jobs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.files.Draw;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.sheets.Printing;
import org.fairtray.sheets.Sheets;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * A trial that several farms sow together, in a folder for each: the same plan to the byte, the trays that stand there as the
 * draw has them, a seal of the same seed, and sheets of these trays alone. So every farm has its own random order, and farms
 * stay the blocks they are in the plan.
 *
 * @param trial its title
 * @param level the place level whose units are the farms
 * @param parts one for each of them
 */
public record Split(String trial, String level, List<Part> parts) {

    /** One farm's folder. */
    public record Part(String folder, String unit, int trays, List<String> files) {}

    public Split {
        parts = List.copyOf(parts);
    }

    /**
     * Writes the folders.
     *
     * @param level the place level whose units get a folder each; empty for the outermost
     * @param to where the folders are made
     * @param printing how sheets are wanted; none are written without
     * @param replace whether files that are there already may be replaced
     * @throws ProblemsException if the trial isn't laid out and sealed, or something keeps its farms together
     */
    public static Split of(
            TrialFolder whole, Optional<String> level, Path to, Optional<Printing> printing, boolean replace) {
        var files = whole.read();
        var trial = files.trial();
        var layout = Needed.layout(files);
        var by = level.orElse(trial.place().names().get(0));
        requireApart(files, layout, by);
        var seal = files.seal().orElseThrow();
        var draw = new Draw(seal.seed(), seal.generator(), seal.restrictions(), seal.time(), seal.version());
        var plan = text(whole.path().resolve("plan.yaml"));
        var parts = new ArrayList<Part>();
        units(trial, layout, by).forEach((unit, trays) -> {
            var folder = new TrialFolder(to.resolve(by + "-" + unit));
            var own = new Layout(trays);
            var handling = of(files.handling(), trays);
            var sheets = printing.map(p -> new Sheets(trial, own, handling, p).files())
                    .orElse(Map.of());
            folder.writePlan(plan, replace);
            folder.writeLayout(trial, own, draw, handling, sheets, replace);
            var written = new ArrayList<>(List.of("plan.yaml", "layout.csv", "seal.json"));
            written.addAll(sheets.keySet());
            parts.add(new Part(folder.path().toString(), unit, trays.size(), written));
        });
        return new Split(trial.title(), by, parts);
    }

    /** The trays by farm, in the order of their places. */
    private static Map<String, List<Tray>> units(Trial trial, Layout layout, String level) {
        return layout.trays().stream()
                .collect(Collectors.groupingBy(
                        t -> trial.place().unit(level, t.stand()), LinkedHashMap::new, Collectors.toList()));
    }

    private static Handling of(Handling all, List<Tray> trays) {
        var codes = trays.stream().map(Tray::code).collect(Collectors.toSet());
        return new Handling(
                all.frames().stream().filter(f -> codes.contains(f.tray())).toList(),
                all.moves().stream().filter(m -> codes.contains(m.tray())).toList());
    }

    private static void requireApart(TrialFiles files, Layout layout, String level) {
        var trial = files.trial();
        var place = trial.place();
        if (!place.names().contains(level) || place.isTray(level)) {
            throw problem(
                    "plan.yaml",
                    "'" + level + "' to split by",
                    "a place level that holds several trays: " + outer(place));
        }
        if (files.sealState() != Seal.State.HOLDS) {
            throw problem("seal.json", "no seal that holds", "the layout as lay drew it; lay first");
        }
        trial.rotation().ifPresent(r -> {
            if (place.key(level).contains(place.names().indexOf(r.level()))) {
                throw problem("plan.yaml", "trays that change their " + r.level(), "trays that stay on their " + level);
            }
        });
        for (Batch batch : trial.batches()) {
            var units = units(trial, layout, level).values().stream()
                    .map(trays -> trays.stream()
                            .map(t -> t.treatment().level(batch.of()) + " "
                                    + t.batches().get(batch.name()))
                            .collect(Collectors.toSet()))
                    .toList();
            boolean shared = units.stream()
                    .flatMap(Set::stream)
                    .anyMatch(b -> units.stream().filter(u -> u.contains(b)).count() > 1);
            if (shared) {
                throw problem(
                        "layout.csv",
                        "a " + batch.name() + " that serves trays of more than one " + level,
                        "a plan without batches, or farms that are trials of their own (begin --like)");
            }
        }
    }

    private static String outer(Place place) {
        return place.names().stream().filter(n -> !place.isTray(n)).collect(Collectors.joining(", "));
    }

    private static ProblemsException problem(String file, String found, String expected) {
        return new ProblemsException(new Problem(file, 0, found, expected, Optional.empty()));
    }

    private static String text(Path plan) {
        try {
            return new String(Files.readAllBytes(plan), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What was written, line by line. */
    public List<String> forPeople() {
        var lines = new ArrayList<String>();
        lines.add(trial);
        parts.forEach(p -> lines.add(level + " " + p.unit() + ": " + p.trays() + " trays in " + p.folder()));
        lines.add(
                "Give each farm its folder. When all is counted: fairtray gather DIR with the folders or packs that come"
                        + " back.");
        return lines;
    }
}
