package org.fairtray.files;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** readings.csv while others may write into it: replaced only where it is still the file that was read. */
public final class SharedReadings {
    private final Path folder;
    private final Trial trial;
    private final Set<String> codes;

    /**
     * @param folder where the trial lies
     * @param layout whose trays the readings are of
     */
    public SharedReadings(Path folder, Trial trial, Layout layout) {
        this.folder = folder;
        this.trial = trial;
        this.codes = layout.trays().stream().map(Tray::code).collect(Collectors.toCollection(LinkedHashSet::new));
    }

    /** Readings, and of which file they are. */
    public record Now(List<Reading> readings, List<String> noteColumns, String sha256) {
        public Now {
            readings = List.copyOf(readings);
            noteColumns = List.copyOf(noteColumns);
        }
    }

    /**
     * The readings as the file has them now, whatever else lies in the folder.
     *
     * @return empty where there is no such file
     * @throws ProblemsException with everything that is wrong with it
     */
    public Optional<Now> read() {
        return StoredFile.find(folder, ReadingsFile.NAME).map(file -> {
            var problems = new Problems(ReadingsFile.NAME);
            var read = ReadingsFile.read(trial, file, problems, Optional.of(codes));
            problems.throwIfAny();
            return new Now(read.readings(), read.noteColumns(), file.sha256());
        });
    }

    /**
     * Replaces the file where it is still the one that was read, so that nobody's changes are lost.
     *
     * @param before SHA-256 of the file that was read; empty where there was none
     * @return SHA-256 of the new file; empty where the file has been changed meanwhile, and was left alone
     * @throws ProblemsException if it can't be written
     */
    public Optional<String> replace(List<Reading> readings, List<String> noteColumns, Optional<String> before) {
        var text = ReadingsFile.text(trial, readings, noteColumns);
        var after = new StoredFile(ReadingsFile.NAME, text.getBytes(StandardCharsets.UTF_8));
        var now = StoredFile.find(folder, ReadingsFile.NAME).map(StoredFile::sha256);
        if (!now.equals(before)) {
            return Optional.empty();
        }
        if (!now.equals(Optional.of(after.sha256()))) {
            WholeFile.replace(folder, Map.of(ReadingsFile.NAME, after.bytes()));
        }
        return Optional.of(after.sha256());
    }
}
