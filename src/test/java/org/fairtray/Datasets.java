package org.fairtray;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.files.TrialFolder;
import org.fairtray.findings.Findings;

/** The trials in {@code datasets/} whose numbers are known from elsewhere. */
final class Datasets {
    private static final Path ROOT = Path.of("datasets");

    private Datasets() {}

    /** The names of the folders that have an expected.json. */
    static List<String> names() {
        try (var folders = Files.list(ROOT)) {
            return folders.filter(f -> Files.exists(f.resolve("expected.json")))
                    .map(f -> f.getFileName().toString())
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Path folder(String name) {
        return ROOT.resolve(name);
    }

    /** What the analysis finds in a folder. */
    static Findings analyse(String name) {
        var files = new TrialFolder(folder(name)).read();
        var sealing = new Sealing(
                files.sealState(),
                files.seal(),
                files.planSha256(),
                files.layoutSha256().orElseThrow());
        return Analysis.of(files.trial(), files.layout().orElseThrow(), files.readings(), sealing, "test");
    }
}
