package org.fairtray.network;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.fairtray.packs.PackFile;

/** Packs of one invented trial under many titles, for tests of what happens to them later. */
public final class SamplePacks {
    private SamplePacks() {}

    /** A whole pack; another title makes another trial of it. */
    public static byte[] titled(String title) {
        return of(title, List.of("plan.yaml", "layout.csv", "readings.csv"));
    }

    /** A pack with some of the trial's files. */
    static byte[] of(String title, List<String> names) {
        var files = new TreeMap<String, byte[]>();
        for (var name : names) {
            files.put(name, file(name));
        }
        var plan = new String(files.get("plan.yaml"), StandardCharsets.UTF_8)
                .replaceFirst(
                        "(?m)^trial: .*$", "trial: " + title + "\ncrop: {name: cress}\nconditions: {water: rain}");
        files.put("plan.yaml", plan.getBytes(StandardCharsets.UTF_8));
        return PackFile.bytes(
                new PackFile.About("0.1.0", Optional.of("farm-7"), Optional.empty(), List.of("who counted")), files);
    }

    private static byte[] file(String name) {
        try {
            return Files.readAllBytes(Path.of("datasets/stack-trial", name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
