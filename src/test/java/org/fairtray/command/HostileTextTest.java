package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.files.TrialFolder;
import org.fairtray.sizing.InventedReadings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A trial whose every name tries to be more than a name, from the plan to the report. */
class HostileTextTest {
    private static final String PLAN = """
            format: 1
            trial: "<script>alert(1)</script> & \\"friends\\""
            question: "</title><img src=x onerror=alert(2)>"
            crop: {name: "beet' OR 1=1 --", seed_lot: "=cmd|' /C calc'!A0"}
            factors:
              - {name: "=1+1", unit: "<b>h</b>", levels: ["0", "8"]}
              - {name: "mat\\"s", levels: ["@SUM(A1)", "<script>alert(3)</script>", "\\u202Ehcti"]}
            place:
              - {name: "shelf, upper", count: 3}
              - {name: "+spot", count: 12}
            definitions: {through: "<!-- ]]> &amp; -->"}
            counting: {days: [4], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: through, kind: count, of: sown, day: 4}
              - {name: "<i>rot</i>", kind: count, of: sown, day: 4}
            expect: {worthwhile: 0.2}
            """;

    @TempDir
    private Path home;

    private static void assertDone(Run run) {
        assertEquals("", run.err());
        assertEquals(Fairtray.DONE, run.status());
    }

    private String report() throws IOException {
        Files.writeString(home.resolve("plan.yaml"), PLAN);
        assertDone(Run.of("check", home));
        assertDone(Run.of("lay", home, "--seed", 7));
        var folder = new TrialFolder(home);
        var files = folder.read();
        var truth = new InventedReadings(t -> 2, t -> 0, t -> 1.5, Map.of("tray", 0.2));
        var readings = truth.of(files.trial(), files.layout().orElseThrow(), Generator.of(3)).stream()
                .map(r -> new org.fairtray.trial.Reading(
                        r.tray(),
                        r.day(),
                        r.frame(),
                        r.sown(),
                        Map.of(
                                "germinated", r.values().get("germinated"),
                                "through", r.values().get("through"),
                                "<i>rot</i>", 50 - r.values().get("germinated")),
                        Map.of("note", "=HYPERLINK(\"http://example.org\")")))
                .toList();
        folder.writeReadings(files.trial(), readings, List.of("note"), false);
        assertDone(Run.of("audit", home));
        assertDone(Run.of("analyse", home));
        return Files.readString(home.resolve("report.html"));
    }

    @Test
    void namesStayNamesInThePage() throws IOException {
        var html = report();
        assertFalse(html.contains("<script"), "a script");
        assertFalse(html.contains("<img"), "an image");
        assertFalse(html.contains("<b>h</b>"), "bold");
        assertFalse(html.contains("<i>rot"), "italic");
        assertFalse(html.contains("\u202E"), "a mark that turns text round");
        assertTrue(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;"), "the title as text");
        assertTrue(html.contains("&lt;i&gt;rot&lt;/i&gt;"), "the outcome as text");
    }

    @Test
    void namesComeBackFromTheFilesAsTheyWere() throws IOException {
        report();
        var files = new TrialFolder(home).read();
        assertEquals(List.of("=1+1", "mat\"s"), files.trial().factorNames());
        assertEquals(
                List.of("@SUM(A1)", "<script>alert(3)</script>", "\u202Ehcti"),
                files.trial().factor("mat\"s").levels());
        assertEquals(36, files.layout().orElseThrow().trays().size());
        assertEquals(
                "=HYPERLINK(\"http://example.org\")",
                files.readings().get(0).notes().get("note"));
        var title = Run.of("analyse", home, "--json").json().get("trial").getAsString();
        assertEquals("<script>alert(1)</script> & \"friends\"", title);
    }

    /** A spreadsheet would calculate a cell that begins with =, +, - or @. */
    @Test
    void noCellOfTheWrittenFilesIsAFormula() throws IOException {
        report();
        for (var name : List.of("layout.csv", "readings.csv")) {
            for (var line : Files.readAllLines(home.resolve(name))) {
                assertFalse(line.matches("(.*,)?\"?[=+@].*"), () -> name + ": " + line);
            }
        }
        assertTrue(Files.readAllLines(home.resolve("layout.csv")).get(0).contains("'=1+1"));
    }
}
