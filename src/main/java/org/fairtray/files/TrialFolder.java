package org.fairtray.files;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Trial;

/**
 * The folder of one trial: plan.yaml, layout.csv, seal.json, frames.csv, rotation.csv, readings.csv, and what is made from them. Reading reports
 * everything that is wrong at once; writing replaces a file whole or not at all. Nothing is kept between calls.
 */
public final class TrialFolder {
    private static final List<String> INPUTS = List.of(
            PlanFile.NAME,
            LayoutFile.NAME,
            ReadingsFile.NAME,
            SealFile.NAME,
            FramesFile.NAME,
            MovesFile.NAME,
            ShownPhotosFile.NAME);
    /** What the bench can do without: files that people write into while it counts. */
    private static final List<String> WRITTEN_MEANWHILE = List.of(ReadingsFile.NAME, ShownPhotosFile.NAME);

    /** What the bench writes beside the readings; it belongs to them. */
    public static final String JOURNAL = "readings.journal";

    private final Path folder;

    /** @param folder where the trial lies; need not exist yet */
    public TrialFolder(Path folder) {
        this.folder = folder;
    }

    /** Where the trial lies. */
    public Path path() {
        return folder;
    }

    /**
     * Reads everything; layout, readings and seal may be missing.
     *
     * @throws ProblemsException with everything that is wrong with any file that could be checked; where the plan is
     *     wrong, that is all that could be
     */
    public TrialFiles read() {
        return read(INPUTS);
    }

    /**
     * Reads everything but readings and photos.csv, which may be in a state that can't be read.
     *
     * @throws ProblemsException with everything that is wrong with any other file
     */
    public TrialFiles readWithoutReadings() {
        return read(INPUTS.stream()
                .filter(name -> !WRITTEN_MEANWHILE.contains(name))
                .toList());
    }

    private TrialFiles read(List<String> names) {
        requireFolder();
        var files = new LinkedHashMap<String, StoredFile>();
        var problems = new ArrayList<Problem>();
        for (var name : names) {
            try {
                StoredFile.find(folder, name).ifPresent(file -> files.put(name, file));
            } catch (ProblemsException e) {
                problems.addAll(e.problems());
            }
        }
        if (!problems.isEmpty()) {
            throw new ProblemsException(problems);
        }
        return TrialFiles.read(files);
    }

    /**
     * Reads the plan alone, whatever else lies in the folder.
     *
     * @throws ProblemsException with everything that is wrong with it
     */
    public Trial readPlan() {
        return PlanFile.read(plan());
    }

    /**
     * Reads the text of a plan, wherever it comes from.
     *
     * @throws ProblemsException with everything that is wrong with it
     */
    public static Trial readPlan(String text) {
        return PlanFile.read(new StoredFile(PlanFile.NAME, utf8(text)));
    }

    /** A file as it lies in the folder; empty where there is none. */
    public Optional<byte[]> bytes(String name) {
        return StoredFile.find(folder, name).map(StoredFile::bytes);
    }

    /** Whether there is a readings.csv, whatever it says. */
    public boolean hasReadings() {
        return Files.exists(folder.resolve(ReadingsFile.NAME));
    }

    private StoredFile plan() {
        requireFolder();
        return StoredFile.find(folder, PlanFile.NAME)
                .orElseThrow(() -> problem(PlanFile.NAME, "no such file", "the trial's plan; begin writes one"));
    }

    /**
     * Makes sure that there is such a folder.
     *
     * @throws ProblemsException if there is none
     */
    public void requireFolder() {
        if (!Files.isDirectory(folder)) {
            var found = Files.exists(folder) ? "a file" : "no such folder";
            throw problem(folder.toString(), found, "the folder of a trial");
        }
    }

    /** The text of plan.yaml, whatever it says. */
    public PlanNow planText() {
        var plan = plan();
        return new PlanNow(plan.text(), plan.sha256());
    }

    /** A plan's text, and SHA-256 of its file. */
    public record PlanNow(String text, String sha256) {}

    /** Whether plan.yaml is there and is, to the byte, this text. */
    public boolean hasPlan(String text) {
        return Files.isDirectory(folder)
                && StoredFile.find(folder, PlanFile.NAME)
                        .filter(f -> f.sha256().equals(new StoredFile(PlanFile.NAME, utf8(text)).sha256()))
                        .isPresent();
    }

    /**
     * Writes plan.yaml; makes the folder if there is none.
     *
     * @param text the whole file
     * @param replace whether a plan that is there already may be replaced
     * @throws ProblemsException if there is one and it may not, or it can't be written
     */
    public void writePlan(String text, boolean replace) {
        writePlan(utf8(text), replace);
    }

    /** The same of a plan that has to stay as it is, byte for byte. */
    public void writePlan(byte[] plan, boolean replace) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw problem(folder.toString(), "that it can't be made (" + Obstacle.of(e) + ")", "a folder of your own");
        }
        keep(replace, PlanFile.NAME);
        WholeFile.replace(folder, Map.of(PlanFile.NAME, plan));
    }

    /**
     * Writes layout.csv and seal.json, both or neither. Readings taken under a layout that is replaced by another are set
     * aside under another name, since they would be taken for readings of the new one.
     *
     * @param trial the plan that the layout was drawn for, as read from this folder
     * @param replace whether a layout, seal and readings that are there already may be replaced
     * @return the seal, and the name under which readings were set aside
     * @throws ProblemsException if something is there and may not be replaced, the plan has changed since it was read,
     *     or a file can't be written
     */
    public Laid writeLayout(Trial trial, Layout layout, Draw draw, boolean replace) {
        return writeLayout(trial, layout, draw, Handling.NONE, Map.of(), replace);
    }

    /**
     * The same together with what was drawn beside the layout and what is printed of it, all or nothing; what an earlier
     * draw left beside its own is taken away.
     *
     * @param handling written to files of its own, where there is any
     * @param sheets the bytes of files that are printed, by name; those that are there already are replaced only with
     *     {@code replace}
     */
    public Laid writeLayout(
            Trial trial, Layout layout, Draw draw, Handling handling, Map<String, byte[]> sheets, boolean replace) {
        var plan = plan();
        if (!PlanFile.read(plan).equals(trial)) {
            throw problem(PlanFile.NAME, "a plan changed since the layout was drawn", "the same plan; lay again");
        }
        var all = new ArrayList<>(List.of(LayoutFile.NAME, SealFile.NAME, ReadingsFile.NAME));
        all.addAll(HandlingFiles.NAMES);
        all.addAll(sheets.keySet());
        keep(replace, all.toArray(String[]::new));
        var layoutBytes = utf8(LayoutFile.text(trial, layout));
        var beside = HandlingFiles.texts(trial.place(), handling);
        var seal = draw.seal(
                plan,
                new StoredFile(LayoutFile.NAME, layoutBytes),
                stored(beside, FramesFile.NAME),
                stored(beside, MovesFile.NAME));
        var contents = new LinkedHashMap<String, byte[]>();
        // The seal first: if the power fails between the two, a seal that doesn't fit is seen, a missing one isn't.
        contents.put(SealFile.NAME, utf8(SealFile.text(seal)));
        contents.put(LayoutFile.NAME, layoutBytes);
        beside.forEach((name, text) -> contents.put(name, utf8(text)));
        contents.putAll(sheets);
        var laid = new Laid(seal, replaceWithReadingsAside(contents));
        HandlingFiles.NAMES.stream().filter(name -> !contents.containsKey(name)).forEach(this::takeAway);
        return laid;
    }

    private static Optional<StoredFile> stored(Map<String, String> texts, String name) {
        return Optional.ofNullable(texts.get(name)).map(text -> new StoredFile(name, utf8(text)));
    }

    private void takeAway(String name) {
        try {
            Files.deleteIfExists(folder.resolve(name));
        } catch (IOException e) {
            throw problem(
                    name,
                    "one of an earlier layout that can't be taken away (" + Obstacle.of(e) + ")",
                    "a folder you may write to");
        }
    }

    /** Replaces files of the folder, readings of another layout set aside first; these are put back if that fails. */
    private Optional<String> replaceWithReadingsAside(Map<String, byte[]> contents) {
        boolean same = holds(LayoutFile.NAME, contents.get(LayoutFile.NAME));
        var aside = same ? Map.<String, String>of() : newNames();
        aside.forEach(this::rename);
        try {
            WholeFile.replace(folder, contents);
        } catch (ProblemsException e) {
            aside.forEach((name, newName) -> rename(newName, name));
            throw e;
        }
        return Optional.ofNullable(aside.get(ReadingsFile.NAME));
    }

    /** What readings and the bench's journal of them are called when set aside, as far as there are any. */
    private Map<String, String> newNames() {
        var unused = "readings-set-aside-" + unusedNumber();
        var names = new LinkedHashMap<String, String>();
        for (var name : List.of(ReadingsFile.NAME, JOURNAL)) {
            if (Files.exists(folder.resolve(name))) {
                names.put(name, unused + name.substring(name.indexOf('.')));
            }
        }
        return names;
    }

    /** Whether a file is there and is, to the byte, this; one that can't be read isn't. */
    private boolean holds(String name, byte[] bytes) {
        var file = folder.resolve(name);
        try {
            return Files.isRegularFile(file)
                    && Files.size(file) == bytes.length
                    && Arrays.equals(Files.readAllBytes(file), bytes);
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * What became of writing a layout.
     *
     * @param seal the seal that was written
     * @param readingsSetAside the new name of readings taken under the layout that was replaced, if there were any
     */
    public record Laid(Seal seal, Optional<String> readingsSetAside) {}

    private int unusedNumber() {
        int number = 1;
        while (Files.exists(folder.resolve("readings-set-aside-" + number + ".csv"))
                || Files.exists(folder.resolve("readings-set-aside-" + number + ".journal"))) {
            number++;
        }
        return number;
    }

    private void rename(String name, String newName) {
        try {
            Files.move(folder.resolve(name), folder.resolve(newName));
        } catch (IOException e) {
            throw problem(
                    name,
                    "that it can't be renamed to " + newName + " (" + Obstacle.of(e) + ")",
                    "a folder you may write to");
        }
    }

    /**
     * Writes readings.csv.
     *
     * @param noteColumns the columns of notes in their order, as {@link TrialFiles#noteColumns} has them
     * @param replace whether readings that are there already may be replaced
     * @throws ProblemsException if there are some and they may not, or they can't be written
     */
    public void writeReadings(Trial trial, List<Reading> readings, List<String> noteColumns, boolean replace) {
        keep(replace, ReadingsFile.NAME);
        WholeFile.replace(folder, Map.of(ReadingsFile.NAME, utf8(ReadingsFile.text(trial, readings, noteColumns))));
    }

    /**
     * Writes a file that is made from the others, such as results.json, replacing an earlier one.
     *
     * @param name a file name; not that of a file a trial is made of
     * @throws ProblemsException if it can't be written
     * @throws IllegalArgumentException if the name is a path, or that of an input
     */
    public void write(String name, byte[] bytes) {
        if (INPUTS.contains(name)
                || !folder.resolve(name).getFileName().toString().equals(name)) {
            throw new IllegalArgumentException(name + ": expected the name of a result");
        }
        requireFolder();
        WholeFile.replace(folder, Map.of(name, bytes));
    }

    /**
     * Writes files that are made from the others and printed, all or none.
     *
     * @param sheets bytes by file name
     * @param replace whether files that are there already may be replaced
     * @throws ProblemsException if some are there and may not be replaced, or they can't be written
     */
    public void writeSheets(Map<String, byte[]> sheets, boolean replace) {
        requireFolder();
        keep(replace, sheets.keySet().toArray(String[]::new));
        WholeFile.replace(folder, sheets);
    }

    /** Refuses to go on where one of these files exists and may not be replaced. */
    private void keep(boolean replace, String... names) {
        var existing = new ArrayList<Problem>();
        for (var name : names) {
            if (!replace && Files.exists(folder.resolve(name))) {
                existing.add(new Problem(
                        name, 0, "it already there", "no such file yet; --replace replaces it", Optional.empty()));
            }
        }
        if (!existing.isEmpty()) {
            throw new ProblemsException(existing);
        }
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static ProblemsException problem(String file, String found, String expected) {
        return new ProblemsException(new Problem(file, 0, found, expected, Optional.empty()));
    }
}
