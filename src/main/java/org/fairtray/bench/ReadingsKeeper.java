package org.fairtray.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.ReadingCells;
import org.fairtray.files.SharedReadings;
import org.fairtray.journal.Slot;
import org.fairtray.journal.Standing;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * Writes readings.csv from what stands, and finds what someone else changed in it. A file that was changed is read before
 * it is replaced; one that can't be understood is left alone.
 */
final class ReadingsKeeper {
    private static final String NAME = "readings.csv";

    private final Path folder;
    private final SharedReadings file;
    private final int seedsPerFrame;
    private final ReadingCells meaning;
    private final Map<String, Integer> walk = new HashMap<>();
    private final Set<String> noteColumns = new LinkedHashSet<>();
    private Optional<String> known = Optional.empty();
    private Optional<Seen> seen = Optional.empty();

    ReadingsKeeper(Path folder, Trial trial, Layout layout) {
        this.folder = folder;
        this.file = new SharedReadings(folder, trial, layout);
        this.seedsPerFrame = trial.counting().seedsPerFrame();
        this.meaning = new ReadingCells(trial);
        for (Tray tray : Layout.walked(layout.trays())) {
            walk.put(tray.code(), walk.size());
        }
    }

    /** Enough to see that a file isn't the one it was, without reading it. */
    private record Seen(FileTime changed, long size) {}

    /** A file that someone else wrote: every cell that isn't empty, by slot and column. */
    record Changed(Map<Slot, Map<String, String>> cells, String sha256) {}

    /**
     * What someone else made of the file; the same again until it is {@linkplain #taken taken}.
     *
     * @return empty where nobody did
     * @throws ProblemsException if the file can't be understood
     */
    Optional<Changed> changed() {
        var now = look();
        if (known.isPresent() == now.isPresent() && now.equals(seen)) {
            return Optional.empty();
        }
        var read = file.read();
        seen = now;
        var sha256 = read.map(SharedReadings.Now::sha256);
        if (sha256.equals(known)) {
            return Optional.empty();
        }
        if (read.isEmpty()) {
            known = Optional.empty();
        }
        return read.map(r -> {
            noteColumns.addAll(r.noteColumns());
            return new Changed(cells(r.readings()), r.sha256());
        });
    }

    /** Says that what someone else changed is in the journal now. */
    void taken(Changed changed) {
        known = Optional.of(changed.sha256());
    }

    private Optional<Seen> look() {
        var path = folder.resolve(NAME);
        try {
            return Files.exists(path)
                    ? Optional.of(new Seen(Files.getLastModifiedTime(path), Files.size(path)))
                    : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private Map<Slot, Map<String, String>> cells(List<Reading> readings) {
        var cells = new LinkedHashMap<Slot, Map<String, String>>();
        readings.forEach(r -> cells.put(new Slot(r.tray(), r.day(), r.frame()), meaning.of(r)));
        return cells;
    }

    /**
     * Writes what stands.
     *
     * @return whether the file now has it; not so where someone else changed the file just now
     * @throws ProblemsException if it can't be written
     */
    boolean write(List<Standing> standings) {
        if (standings.isEmpty() && known.isEmpty()) {
            return true;
        }
        var readings = readings(standings);
        noteColumns.addAll(List.of("note", "by", "time"));
        var written = file.replace(readings, List.copyOf(noteColumns), known);
        if (written.isEmpty()) {
            seen = Optional.empty();
            return false;
        }
        known = written;
        seen = look();
        return true;
    }

    /** The readings that stand, by day and walking order. */
    List<Reading> readings(List<Standing> standings) {
        Comparator<Standing> order = Comparator.<Standing>comparingInt(
                        s -> s.slot().day())
                .thenComparingInt(s -> walk.getOrDefault(s.slot().tray(), Integer.MAX_VALUE))
                .thenComparingInt(s -> s.slot().frame());
        var readings = standings.stream()
                .sorted(order)
                .map(this::reading)
                .flatMap(Optional::stream)
                .toList();
        return FrameSeeds.of(standings).on(readings, seedsPerFrame);
    }

    /** A reading; none where all of its figures and its note were taken back. */
    private Optional<Reading> reading(Standing standing) {
        var slot = standing.slot();
        return standing.holdsNothing()
                ? Optional.empty()
                : meaning.reading(slot.tray(), slot.day(), slot.frame(), standing.cells(), new ArrayList<>());
    }

    /** Keeps a copy of the file as its editor saved it, since not all of it was taken. */
    void keepAside() {
        Function<Integer, Path> name = n -> folder.resolve("readings-edited-" + n + ".csv");
        int number = 1;
        while (Files.exists(name.apply(number))) {
            number++;
        }
        try {
            Files.copy(folder.resolve(NAME), name.apply(number), StandardCopyOption.COPY_ATTRIBUTES);
        } catch (IOException e) {
            throw new ProblemsException(new Problem(
                    NAME,
                    0,
                    "an edited file of which no copy can be kept (" + e.getMessage() + ")",
                    "a folder you may write to, with room on the disk",
                    Optional.empty()));
        }
    }
}
