package org.fairtray.network;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.fairtray.archive.Archive;
import org.fairtray.archive.Search;
import org.fairtray.pooling.SharedTrial;
import org.fairtray.pooling.SharedTrials;

/** Shared trials from files, folders and archives together. */
public final class Sources implements SharedTrials, AutoCloseable {
    private static final byte[] ARCHIVE_FILE = "SQLite format 3".getBytes(StandardCharsets.US_ASCII);

    private final List<Archive> archives;
    private final Search search;
    private final List<SharedTrial> fromFiles;

    private Sources(List<Archive> archives, Search search, List<SharedTrial> fromFiles) {
        this.archives = archives;
        this.search = search;
        this.fromFiles = fromFiles;
    }

    /**
     * Reads files at once, and opens archives to read later.
     *
     * @param named packs, folders, archives' files or addresses
     * @param search which trials of archives are meant
     * @param progress gets how many files are read
     * @throws org.fairtray.files.ProblemsException with everything that is wrong with any of them
     */
    public static Sources open(List<String> named, Search search, Consumer<Integer> progress) {
        var files = named.stream().filter(n -> !isArchive(n)).map(Path::of).toList();
        var fromFiles = files.isEmpty() ? List.<SharedTrial>of() : SharedFiles.read(files, progress);
        var archives = new ArrayList<Archive>();
        named.stream().filter(Sources::isArchive).forEach(n -> archives.add(Archive.existing(n)));
        return new Sources(archives, search, fromFiles);
    }

    /** Whether a name is that of an archive: a server's address, or a file that is one. */
    public static boolean isArchive(String name) {
        return name.startsWith("jdbc:") || name.matches("postgres(ql)?://.*") || isArchiveFile(Path.of(name));
    }

    private static boolean isArchiveFile(Path file) {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        try (var in = Files.newInputStream(file)) {
            return Arrays.equals(in.readNBytes(ARCHIVE_FILE.length), ARCHIVE_FILE);
        } catch (IOException e) {
            return false;
        }
    }

    /** Whether an archive is among them. */
    public boolean hasArchive() {
        return !archives.isEmpty();
    }

    @Override
    public void forEach(Consumer<? super SharedTrial> taker) {
        fromFiles.forEach(taker);
        archives.forEach(a -> new ArchivedTrials(a, search).forEach(taker));
    }

    @Override
    public void close() {
        archives.forEach(Archive::close);
    }
}
