package org.fairtray.network;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.fairtray.archive.Archive;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.files.NewFile;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.packs.PackFile;
import org.fairtray.sharing.Remade;

/** The reports and packs of a site, a folder for each trial; one that this version has made already isn't made again. */
final class SiteReports {
    private static final String TRIALS = "trials";
    private static final String REPORT = "report.html";
    private static final String PACK = "pack.zip";
    private static final String MADE = "made-by.txt";
    private static final int SHORT = 16;
    private static final Pattern OURS = Pattern.compile("[0-9a-f]{" + SHORT + "}");

    private final Archive archive;
    private final Path folder;
    private final String version;

    /** What became of a report. */
    enum Made {
        ANEW,
        THERE,
        NONE
    }

    SiteReports(Archive archive, Path folder, String version) {
        this.archive = archive;
        this.folder = folder;
        this.version = version;
    }

    /** Where a trial's report is, from the lists. */
    static String report(String id) {
        return TRIALS + "/" + id.substring(0, SHORT) + "/" + REPORT;
    }

    static String pack(String id) {
        return TRIALS + "/" + id.substring(0, SHORT) + "/" + PACK;
    }

    Made write(String id) {
        var own = folder.resolve(TRIALS).resolve(id.substring(0, SHORT));
        var made = own.resolve(MADE);
        if (isText(made, id + " " + version + "\n")) {
            return Files.exists(own.resolve(REPORT)) ? Made.THERE : Made.NONE;
        }
        Site.make(own);
        var zip = archive.pack(id);
        NewFile.write(own.resolve(PACK), zip, true);
        var html = html(id, zip);
        html.ifPresent(h -> NewFile.write(own.resolve(REPORT), h.getBytes(StandardCharsets.UTF_8), true));
        NewFile.write(made, (id + " " + version + "\n").getBytes(StandardCharsets.UTF_8), true);
        return html.isPresent() ? Made.ANEW : Made.NONE;
    }

    /** None of a trial that was never read, or that no analysis takes. */
    private static Optional<String> html(String id, byte[] zip) {
        try {
            return Remade.of(PackFile.read(id, zip).files()).map(a -> a.html());
        } catch (DoesNotFitException | IllegalArgumentException | IllegalStateException | ArithmeticException e) {
            return Optional.empty();
        }
    }

    private static boolean isText(Path file, String text) {
        try {
            return Files.isRegularFile(file) && Files.readString(file).equals(text);
        } catch (IOException e) {
            return false;
        }
    }

    /** Folders that this class made, of trials that aren't among these. */
    void takeAwayOthers(List<String> ids) {
        var trials = folder.resolve(TRIALS);
        if (!Files.isDirectory(trials)) {
            return;
        }
        Set<String> kept =
                new HashSet<>(ids.stream().map(i -> i.substring(0, SHORT)).toList());
        try (var folders = Files.list(trials)) {
            folders.filter(f -> OURS.matcher(f.getFileName().toString()).matches())
                    .filter(f -> Files.exists(f.resolve(MADE)))
                    .filter(f -> !kept.contains(f.getFileName().toString()))
                    .sorted(Comparator.naturalOrder())
                    .forEach(SiteReports::takeAway);
        } catch (IOException e) {
            throw refused(trials, "a folder that can't be read", "one that you may read");
        }
    }

    private static void takeAway(Path own) {
        try {
            for (String name : List.of(REPORT, PACK, MADE)) {
                Files.deleteIfExists(own.resolve(name));
            }
            Files.deleteIfExists(own);
        } catch (IOException e) {
            throw refused(
                    own,
                    "what is left of a trial that was withdrawn, and can't be taken away",
                    "a folder you may write to");
        }
    }

    static ProblemsException refused(Path file, String found, String expected) {
        return new ProblemsException(new Problem(file.toString(), 0, found, expected, Optional.empty()));
    }
}
