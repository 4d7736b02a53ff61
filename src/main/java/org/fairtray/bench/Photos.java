package org.fairtray.bench;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.ProblemsException;
import org.fairtray.journal.NotKeptException;
import org.fairtray.trial.ShownPhoto;

/** The photos of a trial: what one that a page sends must be, where it is kept, and which stand in the report. */
final class Photos {
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9_-]{8,80}");

    private final PhotoFolder folder;
    private final Set<String> trays;

    /** @param trays the layout's codes */
    Photos(PhotoFolder folder, Set<String> trays) {
        this.folder = folder;
        this.trays = Set.copyOf(trays);
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
            folder.write(name, bytes);
        } catch (ProblemsException e) {
            throw new NotKeptException("The photo can't be written to disk (" + e.getMessage() + ").", e);
        }
    }

    /** A photo's bytes; empty where its file is gone. */
    Optional<byte[]> read(Photo photo) {
        return folder.read(photo.file());
    }

    /** The photos that stand in the report. */
    List<ShownPhoto> shown() {
        return folder.shown(trays);
    }

    /**
     * Shows a photo in the report, with a few words, which may be empty.
     *
     * @throws Refused if the words are too many
     */
    void show(Photo photo, String words) {
        var kept = CountRules.fit(words, "What is said of the photo");
        folder.show(new ShownPhoto(photo.file(), photo.tray(), photo.day(), kept), trays);
    }

    /** Shows it no more. */
    void hide(Photo photo) {
        folder.hide(photo.file(), trays);
    }
}
