package org.fairtray.packs;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import org.apache.commons.compress.archivers.zip.Zip64Mode;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipArchiveOutputStream;
import org.fairtray.files.Problem;
import org.fairtray.files.Problems;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Sha256;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.Wording;

/**
 * A pack as a .zip file: a Frictionless Data Package. Written the same to the byte wherever and whenever it is; read
 * without trust in who made it. Reading writes nothing.
 */
public final class PackFile {
    private static final LocalDateTime NO_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);
    private static final String WHAT = "a pack, as pack writes one";

    private PackFile() {}

    /**
     * Reads a pack.
     *
     * @throws ProblemsException with everything that is wrong with it
     */
    public static Pack read(Path file) {
        return read(file.toString(), load(file));
    }

    /**
     * The bytes of a file that may be a pack; nothing of them is looked at.
     *
     * @throws ProblemsException if there is no such file, or it is too large for one
     */
    public static byte[] load(Path file) {
        var shown = file.toString();
        try {
            if (Files.isRegularFile(file) && Files.size(file) > PackLimits.ARCHIVE) {
                throw problem(shown, (Files.size(file) >> 20) + " megabytes", "at most " + (PackLimits.ARCHIVE >> 20));
            }
            if (Files.exists(file) && !Files.isRegularFile(file)) {
                throw problem(shown, "a folder or device of this name", WHAT);
            }
            return Files.readAllBytes(file);
        } catch (NoSuchFileException e) {
            throw problem(shown, "no such file", WHAT);
        } catch (IOException e) {
            throw problem(
                    shown, "a file that can't be read (" + Wording.visible(e.toString()) + ")", "a file you may read");
        }
    }

    /**
     * Reads a pack.
     *
     * @param shownName what messages call it
     * @throws ProblemsException with everything that is wrong with it
     */
    public static Pack read(String shownName, byte[] zip) {
        if (zip.length > PackLimits.ARCHIVE) {
            throw problem(shownName, (zip.length >> 20) + " megabytes", "at most " + (PackLimits.ARCHIVE >> 20));
        }
        var problems = new Problems(shownName);
        var files = Contents.of(zip, problems);
        var description = description(files, problems);
        PackLimits.checkTables(files, problems);
        problems.throwIfAny();
        var trial = trial(shownName, files);
        PackLimits.check(trial, problems);
        if (!description.title().equals(trial.trial().title())) {
            problems.add(
                    0,
                    PackNames.DESCRIPTION + " with the title " + Wording.quote(description.title()),
                    "that of plan.yaml, " + Wording.quote(trial.trial().title()));
        }
        problems.throwIfAny();
        return new Pack(
                Sha256.of(files.get(PackNames.DESCRIPTION)),
                files,
                description.title(),
                description.farm(),
                description.licence(),
                description.version(),
                trial);
    }

    /** What datapackage.json says, held against the files. */
    private static Description description(SortedMap<String, byte[]> files, Problems problems) {
        for (var needed : new String[] {PackNames.DESCRIPTION, PackNames.PLAN}) {
            if (!files.containsKey(needed)) {
                problems.add(0, "no " + needed + " in it", WHAT);
            }
        }
        problems.throwIfAny();
        var description = Description.read(files.get(PackNames.DESCRIPTION), problems);
        problems.throwIfAny();
        var unlisted = new TreeMap<>(files);
        unlisted.remove(PackNames.DESCRIPTION);
        for (var listed : description.orElseThrow().listed()) {
            var path = Wording.quote(listed.path());
            var bytes = unlisted.remove(listed.path());
            if (bytes == null) {
                problems.add(0, "no file " + path + ", which datapackage.json lists", "every file that it lists");
            } else if (bytes.length != listed.bytes() || !Sha256.of(bytes).equals(listed.sha256())) {
                problems.add(0, path + " with other bytes than datapackage.json says", "the file that was packed");
            }
        }
        unlisted.keySet()
                .forEach(name -> problems.add(
                        0, Wording.quote(name) + ", which datapackage.json doesn't list", "only files that it lists"));
        return description.get();
    }

    private static TrialFiles trial(String shownName, SortedMap<String, byte[]> files) {
        try {
            return TrialFiles.of(files);
        } catch (ProblemsException e) {
            throw e.in(shownName);
        } catch (IllegalArgumentException | ArithmeticException e) {
            throw problem(shownName, "a trial that can't be read (" + Wording.quote(e.toString()) + ")", WHAT);
        }
    }

    /**
     * Writes a pack.
     *
     * @param about what is to be said of it besides
     * @param files bytes by name, without datapackage.json, which is made here
     * @throws ProblemsException with everything that would keep it from being read again
     */
    public static byte[] bytes(About about, Map<String, byte[]> files) {
        var all = new TreeMap<>(files);
        all.put(PackNames.DESCRIPTION, DescriptionText.of(about, TrialFiles.of(files), all));
        var zip = zip(all);
        read("the pack", zip);
        return zip;
    }

    /** What the file of a trial's pack is called where nobody says. */
    public static String nameFor(String title) {
        return DescriptionText.slug(title) + ".zip";
    }

    /** Stored as it is: what a deflater makes of bytes differs from one to the next. */
    private static byte[] zip(SortedMap<String, byte[]> files) {
        var zip = new ByteArrayOutputStream();
        try (var out = new ZipArchiveOutputStream(zip)) {
            out.setUseZip64(Zip64Mode.Never);
            for (var file : files.entrySet()) {
                out.putArchiveEntry(entry(file.getKey(), file.getValue()));
                out.write(file.getValue());
                out.closeArchiveEntry();
            }
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory failed", e);
        }
        return zip.toByteArray();
    }

    private static ZipArchiveEntry entry(String name, byte[] bytes) {
        var crc = new CRC32();
        crc.update(bytes);
        var entry = new ZipArchiveEntry(name);
        entry.setTimeLocal(NO_TIME);
        entry.setMethod(ZipEntry.STORED);
        entry.setSize(bytes.length);
        entry.setCompressedSize(bytes.length);
        entry.setCrc(crc.getValue());
        return entry;
    }

    /**
     * What a pack says of itself.
     *
     * @param version of the program that packs
     * @param farm a code that packs of one farm share
     * @param licence the SPDX name of a licence
     * @param leftOut what was left out of it, in words
     */
    public record About(String version, Optional<String> farm, Optional<String> licence, List<String> leftOut) {
        public About {
            leftOut = List.copyOf(leftOut);
        }

        /** Whether a text can be the code of a farm, or the name of a licence. */
        public static boolean isCode(String text) {
            return Description.isCode(text);
        }
    }

    private static ProblemsException problem(String file, String found, String expected) {
        return new ProblemsException(new Problem(file, 0, found, expected, Optional.empty()));
    }
}
