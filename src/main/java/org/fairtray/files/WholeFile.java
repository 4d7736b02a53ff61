package org.fairtray.files;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** A file that is replaced whole or not at all: written beside its target, forced to disk, then moved over it. */
final class WholeFile {
    private final Path target;
    private final Path beside;

    private WholeFile(Path target, Path beside) {
        this.target = target;
        this.beside = beside;
    }

    /**
     * Replaces files of a folder, all or none; they are moved in the order given.
     *
     * @param contents bytes by file name
     * @throws ProblemsException if that can't be done; the folder is then as it was
     */
    static void replace(Path folder, Map<String, byte[]> contents) {
        var prepared = new ArrayList<WholeFile>();
        String current = "";
        try {
            for (var file : contents.entrySet()) {
                current = file.getKey();
                prepared.add(prepare(folder.resolve(current), file.getValue()));
            }
            moveAll(folder, prepared);
        } catch (IOException e) {
            throw new ProblemsException(new Problem(
                    current,
                    0,
                    "that it can't be written (" + Obstacle.of(e) + ")",
                    "a folder you may write to, with room on the disk",
                    Optional.empty()));
        } finally {
            prepared.forEach(WholeFile::discard);
        }
    }

    private static WholeFile prepare(Path target, byte[] bytes) throws IOException {
        if (Files.isDirectory(target)) {
            throw new IOException("a folder has this name");
        }
        // Not Files.createTempFile: that gives a file only its owner may read, and sheets are shared.
        var beside = target.resolveSibling("." + target.getFileName() + "." + UUID.randomUUID() + ".tmp");
        var file = new WholeFile(target, beside);
        try (var channel = FileChannel.open(beside, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            var buffer = ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.force(true);
        } catch (IOException e) {
            file.discard();
            throw e;
        }
        return file;
    }

    private static void moveAll(Path folder, List<WholeFile> prepared) throws IOException {
        var before = new LinkedHashMap<Path, Optional<byte[]>>();
        try {
            for (var file : prepared) {
                if (prepared.size() > 1) {
                    before.put(file.target, present(file.target));
                }
                Files.move(file.beside, file.target, StandardCopyOption.ATOMIC_MOVE);
            }
        } catch (IOException e) {
            restore(before, e);
            throw e;
        }
        force(folder);
    }

    private static Optional<byte[]> present(Path target) throws IOException {
        return Files.exists(target) ? Optional.of(Files.readAllBytes(target)) : Optional.empty();
    }

    private static void restore(Map<Path, Optional<byte[]>> before, IOException cause) {
        before.forEach((target, bytes) -> {
            try {
                if (bytes.isPresent()) {
                    Files.move(prepare(target, bytes.get()).beside, target, StandardCopyOption.ATOMIC_MOVE);
                } else {
                    Files.deleteIfExists(target);
                }
            } catch (IOException e) {
                cause.addSuppressed(e);
            }
        });
    }

    /** Makes the move itself last through a power cut, where the system can: some can't force a folder. */
    private static void force(Path folder) {
        try (var channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // The files themselves are on disk; only the order of names in the folder may be older.
            return;
        }
    }

    private void discard() {
        try {
            Files.deleteIfExists(beside);
        } catch (IOException e) {
            beside.toFile().deleteOnExit();
        }
    }
}
