package org.fairtray.files;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** A file that is replaced whole or not at all: written beside its target, forced to disk, then moved over it. */
final class WholeFile {
    private final Path target;
    private final Path beside;
    private final Path old;
    private boolean moved;

    private WholeFile(Path target) {
        var hidden = "." + target.getFileName() + "." + UUID.randomUUID();
        this.target = target;
        this.beside = target.resolveSibling(hidden + ".new");
        this.old = target.resolveSibling(hidden + ".old");
    }

    /**
     * Replaces files of a folder, all or none; they are moved in the order given.
     *
     * @param contents bytes by file name
     * @throws ProblemsException if that can't be done; the folder is then as it was
     */
    static void replace(Path folder, Map<String, byte[]> contents) {
        var files = new ArrayList<WholeFile>();
        try {
            contents.forEach((name, bytes) -> {
                var file = new WholeFile(folder.resolve(name));
                files.add(file);
                file.attempt(() -> file.prepare(bytes));
            });
            files.forEach(file -> file.attempt(() -> file.keepOld(files.size() > 1)));
            files.forEach(file -> file.attempt(file::move));
            force(folder);
        } catch (ProblemsException e) {
            files.forEach(file -> file.putBack(e));
            throw e;
        } finally {
            files.forEach(WholeFile::discard);
        }
    }

    /** Something that a full disk or a missing permission can stop. */
    private interface Step {
        void take() throws IOException;
    }

    private void attempt(Step step) {
        try {
            step.take();
        } catch (IOException e) {
            throw new ProblemsException(new Problem(
                    target.getFileName().toString(),
                    0,
                    "that it can't be written (" + Obstacle.of(e) + ")",
                    "a folder you may write to, with room on the disk",
                    Optional.empty()));
        }
    }

    private void prepare(byte[] bytes) throws IOException {
        // Not Files.createTempFile: that gives a file only its owner may read, and sheets are shared.
        try (var channel = FileChannel.open(beside, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            var buffer = ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.force(true);
        }
    }

    /** A second name for what is there, so that putting it back needs no room; a lone file is never put back. */
    private void keepOld(boolean several) throws IOException {
        if (!several || !Files.isRegularFile(target)) {
            return;
        }
        try {
            Files.createLink(old, target);
        } catch (UnsupportedOperationException | IOException e) {
            Files.copy(target, old, StandardCopyOption.COPY_ATTRIBUTES);
        }
    }

    private void move() throws IOException {
        if (Files.isDirectory(target)) {
            throw new IOException("a folder has this name");
        }
        Files.move(beside, target, StandardCopyOption.ATOMIC_MOVE);
        moved = true;
    }

    private void putBack(ProblemsException cause) {
        try {
            if (moved && Files.exists(old)) {
                Files.move(old, target, StandardCopyOption.ATOMIC_MOVE);
            } else if (moved) {
                Files.deleteIfExists(target);
            }
        } catch (IOException e) {
            cause.addSuppressed(e);
        }
    }

    /** Makes the moves themselves last through a power cut, where the system can: some can't force a folder. */
    private static void force(Path folder) {
        try (var channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // The files themselves are on disk; only the order of names in the folder may be older.
            return;
        }
    }

    private void discard() {
        for (var file : List.of(beside, old)) {
            try {
                Files.deleteIfExists(file);
            } catch (IOException e) {
                file.toFile().deleteOnExit();
            }
        }
    }
}
