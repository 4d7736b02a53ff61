package org.fairtray.files;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.fairtray.trial.ShownPhoto;

/** The photos of a trial, in the folder photos, and photos.csv, which says which of them stand in the report. */
public final class PhotoFolder {
    private final Path trial;
    private final Path photos;

    /** @param trial where the trial lies */
    public PhotoFolder(Path trial) {
        this.trial = trial;
        this.photos = trial.resolve("photos");
    }

    /**
     * Writes a photo, whole or not at all; makes the folder if there is none.
     *
     * @throws ProblemsException if that can't be done
     */
    public void write(String name, byte[] bytes) {
        requirePlain(name);
        try {
            Files.createDirectories(photos);
        } catch (IOException e) {
            throw new ProblemsException(new Problem(
                    "photos",
                    0,
                    "a folder that can't be made (" + Obstacle.of(e) + ")",
                    "a folder you may write to",
                    Optional.empty()));
        }
        WholeFile.replace(photos, Map.of(name, bytes));
    }

    /** A photo's bytes; empty where there is none of this name, it can't be read, or the name is none of a photo. */
    public Optional<byte[]> read(String name) {
        if (!ShownPhotosFile.isPlainName(name)) {
            return Optional.empty();
        }
        try {
            return Optional.of(Files.readAllBytes(photos.resolve(name)));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** How many photos lie there. */
    public int count() {
        try (var all = Files.list(photos)) {
            return (int)
                    all.filter(p -> ShownPhotosFile.isPlainName(p.getFileName().toString()))
                            .count();
        } catch (IOException e) {
            return 0;
        }
    }

    private static void requirePlain(String name) {
        if (!ShownPhotosFile.isPlainName(name)) {
            throw new IllegalArgumentException(name + ": expected the name of a photo");
        }
    }

    /**
     * The photos that stand in the report, as photos.csv says.
     *
     * @param trays the layout's codes
     * @throws ProblemsException with everything that is wrong with it
     */
    public List<ShownPhoto> shown(Set<String> trays) {
        return StoredFile.find(trial, ShownPhotosFile.NAME)
                .map(file -> {
                    var problems = new Problems(ShownPhotosFile.NAME);
                    var shown = ShownPhotosFile.read(file, problems, Optional.of(trays));
                    problems.throwIfAny();
                    return shown;
                })
                .orElse(List.of());
    }

    /**
     * Shows a photo in the report, or says other words about one that is shown.
     *
     * @throws ProblemsException if photos.csv is broken or can't be written
     */
    public void show(ShownPhoto photo, Set<String> trays) {
        requirePlain(photo.file());
        var all = new ArrayList<>(shown(trays));
        int there = all.stream().map(ShownPhoto::file).toList().indexOf(photo.file());
        if (there < 0) {
            all.add(photo);
        } else {
            all.set(there, photo);
        }
        write(all);
    }

    /**
     * Shows a photo no more; the photo itself stays.
     *
     * @throws ProblemsException if photos.csv is broken or can't be written
     */
    public void hide(String file, Set<String> trays) {
        var all = new ArrayList<>(shown(trays));
        if (all.removeIf(p -> p.file().equals(file))) {
            write(all);
        }
    }

    private void write(List<ShownPhoto> all) {
        WholeFile.replace(
                trial, Map.of(ShownPhotosFile.NAME, ShownPhotosFile.text(all).getBytes(StandardCharsets.UTF_8)));
    }
}
