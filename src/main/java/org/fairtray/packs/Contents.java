package org.fairtray.packs;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.fairtray.files.Problems;
import org.fairtray.files.Wording;

/** The files in an archive, unpacked in memory and counted while they are: what an archive says of their size is not believed. */
final class Contents {
    private static final Pattern DRIVE = Pattern.compile("[A-Za-z]:.*");
    private static final Pattern ARCHIVE =
            Pattern.compile(".*\\.(zip|jar|7z|rar|tar|gz|tgz|bz2|xz|zst)", Pattern.CASE_INSENSITIVE);
    private static final int CHUNK = 1 << 16;

    private final byte[] zip;
    private final Problems problems;
    private final SortedMap<String, byte[]> files = new TreeMap<>();
    private long room = PackLimits.ALL_FILES;

    private Contents(byte[] zip, Problems problems) {
        this.zip = zip;
        this.problems = problems;
    }

    /**
     * The files by name.
     *
     * @throws org.fairtray.files.ProblemsException with everything that is wrong with the archive
     */
    static SortedMap<String, byte[]> of(byte[] zip, Problems problems) {
        var entries = ZipParts.of(zip, problems);
        lookAtNames(entries, problems);
        problems.throwIfAny();
        var contents = new Contents(zip, problems);
        contents.unpack(entries.stream().filter(e -> !e.folder()).toList());
        problems.throwIfAny();
        return contents.files;
    }

    private static void lookAtNames(List<ZipEntryPart> entries, Problems problems) {
        var names = new HashMap<String, String>();
        for (var entry : entries) {
            var name = entry.name();
            var before = names.putIfAbsent(name.toLowerCase(Locale.ROOT), name);
            if (before != null) {
                problems.add(
                        0,
                        Wording.quote(name) + (before.equals(name) ? " twice" : " beside " + Wording.quote(before)),
                        "each file once");
            }
            whatIsWrong(entry).ifPresent(found -> problems.add(0, found, "files of a trial, as pack writes them"));
        }
    }

    private static Optional<String> whatIsWrong(ZipEntryPart entry) {
        var name = entry.name();
        var quoted = Wording.quote(name);
        if (name.equals(PackNames.PHOTO_FOLDER) && entry.folder()) {
            return Optional.empty();
        }
        if (name.startsWith("/") || name.contains("\\") || DRIVE.matcher(name).matches() || name.contains("..")) {
            return Optional.of("the path " + quoted + ", which leads out of the pack");
        }
        if (!PackNames.known(name)) {
            return Optional.of(
                    (ARCHIVE.matcher(name).matches() ? "an archive inside, " : "an unknown file, ") + quoted);
        }
        return entry.regular() ? Optional.empty() : Optional.of(quoted + ", which is a link, a folder or a device");
    }

    private void unpack(List<ZipEntryPart> entries) {
        try (var archive = ZipFile.builder()
                .setByteArray(zip)
                .setUseUnicodeExtraFields(false)
                .get()) {
            for (var entry : entries) {
                unpack(archive, entry);
            }
        } catch (IOException | IllegalArgumentException e) {
            problems.add(0, "an archive that can't be read (" + Wording.visible(e.getMessage()) + ")", "a sound one");
        }
    }

    private void unpack(ZipFile archive, ZipEntryPart entry) throws IOException {
        var name = entry.name();
        var found = archive.getEntry(name);
        if (found == null || found.isUnixSymlink() || found.isDirectory()) {
            problems.add(0, Wording.quote(name) + ", which can't be found again", "a sound archive");
            return;
        }
        var bytes = bytes(archive, found, entry);
        if (bytes.isEmpty()) {
            return;
        }
        var crc = new CRC32();
        crc.update(bytes.get());
        if (bytes.get().length != entry.size() || crc.getValue() != entry.crc()) {
            problems.add(0, Wording.quote(name) + ", which is damaged", "the bytes that were packed");
        }
        if (startsLikeAnArchive(bytes.get())) {
            problems.add(
                    0, "an archive inside, called " + Wording.quote(name), "files of a trial, as pack writes them");
        }
        files.put(name, bytes.get());
    }

    private static boolean startsLikeAnArchive(byte[] bytes) {
        return bytes.length >= 4 && bytes[0] == 'P' && bytes[1] == 'K' && bytes[2] == 3 && bytes[3] == 4;
    }

    private Optional<byte[]> bytes(ZipFile archive, ZipArchiveEntry found, ZipEntryPart entry) throws IOException {
        try (var in = archive.getRawInputStream(found)) {
            var packed = in.readAllBytes();
            int most = PackLimits.of(entry.name());
            if (entry.stored() && packed.length > most) {
                return tooMuch(Wording.quote(entry.name()) + " of more than " + size(most));
            }
            var bytes = entry.stored() ? Optional.of(packed) : inflated(packed, entry.name());
            bytes.ifPresent(b -> room -= b.length);
            return room < 0 ? tooMuch("files of more than " + size(PackLimits.ALL_FILES) + " together") : bytes;
        }
    }

    private Optional<byte[]> inflated(byte[] packed, String name) {
        int most = PackLimits.of(name);
        var inflater = new Inflater(true);
        try {
            inflater.setInput(packed);
            var all = new ByteArrayOutputStream();
            var chunk = new byte[CHUNK];
            for (int got = inflater.inflate(chunk); got > 0; got = inflater.inflate(chunk)) {
                all.write(chunk, 0, got);
                if (all.size() > most) {
                    return tooMuch(Wording.quote(name) + " of more than " + size(most));
                }
                if (all.size() > room) {
                    return tooMuch("files of more than " + size(PackLimits.ALL_FILES) + " together");
                }
            }
            if (inflater.finished() && inflater.getRemaining() > 0) {
                problems.add(0, "bytes behind the end of " + Wording.quote(name), "the file and nothing else");
            }
            return Optional.of(all.toByteArray());
        } catch (DataFormatException e) {
            problems.add(0, Wording.quote(name) + ", which is damaged", "the bytes that were packed");
            return Optional.empty();
        } finally {
            inflater.end();
        }
    }

    private Optional<byte[]> tooMuch(String found) {
        problems.add(0, found, "at most so many");
        return Optional.empty();
    }

    private static String size(int bytes) {
        return bytes >= 1 << 20 ? (bytes >> 20) + " megabytes" : (bytes >> 10) + " kilobytes";
    }
}
