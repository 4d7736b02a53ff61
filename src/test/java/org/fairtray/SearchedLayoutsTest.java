package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.command.Run;
import org.fairtray.design.Generator;
import org.fairtray.files.TrialFolder;
import org.fairtray.report.Report;
import org.fairtray.sizing.InventedReadings;
import org.fairtray.trial.Seal;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Plans whose place doesn't hold full sets go all the way: laid out, audited, filled with invented readings, analysed. */
class SearchedLayoutsTest {
    private static final String MATS = "  - {name: mat, levels: [m1, m2, m3, m4, m5, m6, m7]}\n";
    private static final String SCREEN = """
              - {name: soak, levels: [0, 8]}
              - {name: mat, levels: [hemp, coir]}
              - {name: cover, levels: [none, lid]}
              - {name: light, levels: [dim, bright]}
            """;

    @TempDir
    private Path home;

    @ParameterizedTest(name = "{0}, {1}: {4}")
    @CsvSource({
        "mats, stack 7 position 3, , 2, balanced incomplete blocks, 77.8",
        "mats, position 3 stack 7, position, 2, Youden square, 77.8",
        "mats, stack 5 position 4, , 2, incomplete blocks, ",
        "screen, spot 8, , 1, fractional factorial, 100.0",
        "screen, stack 4 position 4, , 2, incomplete blocks, "
    })
    void goesAllTheWay(String factors, String place, String across, int interactions, String name, String efficiency)
            throws IOException {
        var words = place.split(" ", -1);
        var levels = new StringBuilder();
        for (int i = 0; i < words.length; i += 2) {
            levels.append("  - {name: " + words[i] + ", count: " + words[i + 1]
                    + (i == 2 && across != null ? ", across: " + across : "") + "}\n");
        }
        var plan = """
                format: 1
                trial: An invented one
                factors:
                %splace:
                %sdefinitions: {germinated: radicle 2 mm or longer}
                counting: {days: [2, 4], frames_per_tray: 1, seeds_per_frame: 50, counts: cumulative}
                outcomes:
                  - {name: germinated, kind: count, of: sown, day: 4}
                analysis: {interactions: %d}
                """.formatted(factors.equals("mats") ? MATS : SCREEN, levels, interactions);
        var trial = home.resolve("trial");
        Files.createDirectories(trial);
        Files.writeString(trial.resolve("plan.yaml"), plan);

        var lay = Run.of("lay", trial, "--seed", 3);
        assertEquals(0, lay.status(), lay.err());
        assertTrue(lay.out().contains(name + " layout:"), lay.out());
        assertTrue(efficiency == null || lay.out().contains(" it tells " + efficiency), lay.out());
        var audit = Run.of("audit", trial);
        assertEquals(0, audit.status(), audit.out());
        assertAnalysed(trial);
    }

    private static void assertAnalysed(Path folder) {
        var files = new TrialFolder(folder).read();
        var trial = files.trial();
        var layout = files.layout().orElseThrow();
        var readings = new InventedReadings(t -> 2, t -> -0.3, t -> 2.5, Map.of("tray", 0.2))
                .of(trial, layout, Generator.of(1));
        var sealing = new Sealing(Seal.State.HOLDS, Optional.empty(), "", "");
        var findings = Analysis.of(trial, layout, readings, sealing, "test");
        var outcome = findings.outcomes().get(0);
        assertEquals(trial.factors().size(), outcome.verdicts().size());
        assertTrue(!outcome.tests().isEmpty());
        outcome.tests().forEach(t -> assertTrue(t.p() != null && t.p() >= 0 && t.p() <= 1, t::toString));
        assertTrue(Report.of(trial, layout, findings).html().endsWith("</html>\n"), "a whole page");
    }
}
