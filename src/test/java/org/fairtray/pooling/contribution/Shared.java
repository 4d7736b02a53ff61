package org.fairtray.pooling.contribution;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.Sha256;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Tray;

/** Trials to pool: data sets, and invented ones of known effects. */
public final class Shared {
    private Shared() {}

    /** The files of a data set by name. */
    public static Map<String, byte[]> dataset(String name) {
        try (var files = Files.list(Path.of("datasets", name))) {
            var contents = new LinkedHashMap<String, byte[]>();
            for (Path file : files.toList()) {
                contents.put(file.getFileName().toString(), Files.readAllBytes(file));
            }
            return contents;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * An invented trial, drawn and read on the day of its first outcome.
     *
     * @param seed of the draw and of the counts
     * @param effects log-odds by {@code factor=level}
     * @param base log-odds of all trays
     */
    public static TrialFiles sown(String plan, long seed, Map<String, Double> effects, double base) {
        return TrialFiles.of(bytes(plan, seed, effects, base));
    }

    /** The files of such a trial, by name. */
    public static Map<String, byte[]> bytes(String plan, long seed, Map<String, Double> effects, double base) {
        var files = TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)));
        var trial = files.trial();
        var layout = Randomisation.of(trial).draw(Generator.of(seed));
        var random = Generator.of(seed + 1_000_000);
        var names = trial.place().names();
        var lines = new ArrayList<String>();
        lines.add("tray," + String.join(",", names) + "," + String.join(",", trial.factorNames()));
        var outcome = trial.outcomes().get(0);
        var readings = new ArrayList<String>();
        readings.add("tray,day,frame," + outcome.name());
        for (Tray tray : layout.trays()) {
            var cells = new ArrayList<String>(List.of(tray.code()));
            tray.stand().at().forEach(n -> cells.add(n.toString()));
            trial.factorNames().forEach(f -> cells.add(tray.treatment().level(f)));
            lines.add(String.join(",", cells));
            double logOdds = base + 0.3 * (random.nextDouble() + random.nextDouble() - 1);
            for (String factor : trial.factorNames()) {
                logOdds += effects.getOrDefault(factor + "=" + tray.treatment().level(factor), 0.0);
            }
            for (int frame = 1; frame <= trial.counting().framesPerTray(); frame++) {
                int count = 0;
                for (int s = 0; s < trial.counting().seedsPerFrame(); s++) {
                    count += random.nextDouble() < 1 / (1 + Math.exp(-logOdds)) ? 1 : 0;
                }
                readings.add(tray.code() + "," + outcome.day() + "," + frame + "," + count);
            }
        }
        var planBytes = plan.getBytes(StandardCharsets.UTF_8);
        var seal = """
                {"plan_sha256": "%s", "layout_sha256": "%s", "seed": %d, "generator": "%s", "restrictions": [],
                "time": "%s", "version": "0.1.0"}
                """.formatted(
                Sha256.of(planBytes), Sha256.of(bytes(lines)), seed, Generator.NAME, "2026-03-" + (10 + seed % 20));
        return Map.of(
                "plan.yaml", planBytes,
                "layout.csv", bytes(lines),
                "seal.json", seal.getBytes(StandardCharsets.UTF_8),
                "readings.csv", bytes(readings));
    }

    private static byte[] bytes(List<String> lines) {
        return (String.join("\n", lines) + "\n").getBytes(StandardCharsets.UTF_8);
    }
}
