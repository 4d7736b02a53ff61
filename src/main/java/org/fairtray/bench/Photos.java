package org.fairtray.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Pattern;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFolder;
import org.fairtray.journal.NotKeptException;

/** The photos of a trial, in a folder of their own. */
final class Photos {
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9_-]{8,80}");
    /** What {@link #name} gives; a journal that came from elsewhere may name anything. */
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9_-]+\\.(jpg|png)");

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

    /**
     * Writes a photo, whole or not at all.
     *
     * @throws NotKeptException if that can't be done
     */
    void write(String name, byte[] bytes) {
        try {
            Files.createDirectories(folder);
            new TrialFolder(folder).write(name, bytes);
        } catch (IOException | ProblemsException e) {
            throw new NotKeptException("The photo can't be written to disk (" + e.getMessage() + ").", e);
        }
    }

    /** A photo; none where its file is gone, or the name is none of a photo. */
    Optional<byte[]> read(String name) {
        if (!NAME.matcher(name).matches()) {
            return Optional.empty();
        }
        try {
            return Optional.of(Files.readAllBytes(folder.resolve(name)));
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
