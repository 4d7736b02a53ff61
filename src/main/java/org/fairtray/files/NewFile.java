package org.fairtray.files;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;

/** A file anywhere, written whole or not at all. */
public final class NewFile {
    private NewFile() {}

    /**
     * Refuses to go on where there is such a file that may not be replaced.
     *
     * @throws ProblemsException if there is
     */
    public static void refuse(Path file, boolean replace) {
        if (!replace && Files.exists(file)) {
            throw new ProblemsException(new Problem(
                    file.toString(),
                    0,
                    "it already there",
                    "no such file yet; --replace replaces it",
                    Optional.empty()));
        }
    }

    /**
     * Writes it.
     *
     * @param replace whether one that is there already may be replaced
     * @throws ProblemsException if there is one and it may not, or it can't be written
     */
    public static void write(Path file, byte[] bytes, boolean replace) {
        refuse(file, replace);
        var whole = file.toAbsolutePath().normalize();
        WholeFile.replace(whole.getParent(), Map.of(whole.getFileName().toString(), bytes));
    }
}
