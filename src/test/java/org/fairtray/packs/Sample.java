package org.fairtray.packs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** A trial whose pack tests are made of. */
final class Sample {
    static final PackFile.About ABOUT =
            new PackFile.About("0.1.0", Optional.empty(), Optional.empty(), List.of("who counted"));

    private Sample() {}

    /** The files of an invented trial with readings. */
    static SortedMap<String, byte[]> files() {
        var files = new TreeMap<String, byte[]>();
        for (var name : List.of("plan.yaml", "layout.csv", "readings.csv")) {
            files.put(name, file(Path.of("datasets/stack-trial", name)));
        }
        return files;
    }

    private static byte[] file(Path path) {
        try {
            return Files.readAllBytes(path);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The files of a plan alone. */
    static SortedMap<String, byte[]> planAlone() {
        var files = files();
        files.keySet().retainAll(List.of("plan.yaml"));
        return files;
    }

    /** A whole pack. */
    static byte[] pack() {
        return PackFile.bytes(ABOUT, files());
    }

    static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
