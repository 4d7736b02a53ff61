package org.fairtray.network;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;

/** Where packs lie. */
public final class PackFiles {
    private PackFiles() {}

    /**
     * The packs that are named, and those in folders that are named and in folders within these, by name.
     *
     * @throws ProblemsException if a folder holds none, or can't be read
     */
    public static List<Path> in(List<Path> named) {
        var found = new ArrayList<Path>();
        for (var each : named) {
            if (Files.isDirectory(each)) {
                found.addAll(within(each));
            } else {
                found.add(each);
            }
        }
        return found.stream().distinct().toList();
    }

    private static List<Path> within(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            var packs = files.filter(PackFiles::isPack).sorted().toList();
            if (packs.isEmpty()) {
                throw refused(folder, "no packs in it", "files that end in .zip");
            }
            return packs;
        } catch (IOException | UncheckedIOException e) {
            throw refused(folder, "a folder that can't be read", "one that you may read");
        }
    }

    private static boolean isPack(Path file) {
        return Files.isRegularFile(file)
                && file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".zip");
    }

    private static ProblemsException refused(Path folder, String found, String expected) {
        return new ProblemsException(new Problem(folder.toString(), 0, found, expected, Optional.empty()));
    }
}
