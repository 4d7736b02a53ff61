package org.fairtray.bench;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.regex.Pattern;

/** The photos of a trial, in a folder of their own. */
final class Photos {
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9_-]{8,80}");

    private final Path folder;

    Photos(Path trial) {
        this.folder = trial.resolve("photos");
    }

    /**
     * The name of a photo's file.
     *
     * @throws Refused if it is no photo, or has no proper id
     */
    static String name(String id, String tray, int day, byte[] bytes) {
        if (!ID.matcher(id).matches()) {
            throw new Refused("The photo has no proper id.");
        }
        return tray.replaceAll("[^A-Za-z0-9]", "_") + "-day-" + day + "-" + id + ending(bytes);
    }

    private static String ending(byte[] bytes) {
        boolean jpeg = starts(bytes, 0xff, 0xd8, 0xff);
        if (!jpeg && !starts(bytes, 0x89, 'P', 'N', 'G')) {
            throw new Refused("That is no photo that can be kept: send a JPEG or PNG picture.");
        }
        return jpeg ? ".jpg" : ".png";
    }

    private static boolean starts(byte[] bytes, int... first) {
        for (int i = 0; i < first.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xff) != first[i]) {
                return false;
            }
        }
        return true;
    }

    /** Writes a photo, whole or not at all. */
    void write(String name, byte[] bytes) throws IOException {
        Files.createDirectories(folder);
        var beside = folder.resolve("." + name + ".new");
        try (var channel = FileChannel.open(
                beside, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            var buffer = ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.force(true);
        }
        Files.move(beside, folder.resolve(name), StandardCopyOption.ATOMIC_MOVE);
    }

    /** A photo; none where its file is gone. */
    Optional<byte[]> read(String name) {
        try {
            return Optional.of(Files.readAllBytes(folder.resolve(name)));
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
