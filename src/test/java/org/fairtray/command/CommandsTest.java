package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What each command prints and writes when nothing is wrong. */
class CommandsTest {
    private static final Set<String> ALL_FILES = Set.of(
            "plan.yaml",
            "layout.csv",
            "seal.json",
            "readings.csv",
            "results.json",
            "report.html",
            "sheets.pdf",
            "key.pdf");

    @TempDir
    private Path home;

    private static Set<String> names(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> f.getFileName().toString()).collect(Collectors.toCollection(TreeSet::new));
        }
    }

    private static void assertDone(Run run) {
        assertEquals("", run.err());
        assertEquals(Fairtray.DONE, run.status());
    }

    @Test
    void helpNamesEveryCommandAndEveryCommandHasHelp() {
        var help = Run.of("--help");
        assertDone(help);
        for (var command : List.of("demo", "begin", "size", "lay", "sheets", "audit", "check", "analyse")) {
            assertTrue(help.out().contains("\n  " + command + " "), command);
            var own = Run.of(command, "--help");
            assertDone(own);
            assertTrue(own.out().startsWith("Usage: fairtray " + command + " "), own::out);
        }
    }

    @Test
    void versionIsThatOfTheBuild() throws IOException {
        var run = Run.of("--version");
        assertDone(run);
        var pom = Files.readString(Path.of("pom.xml"));
        assertTrue(
                run.out().matches("fairtray \\d+\\.\\d+\\.\\d+\\n")
                        && pom.contains("<version>" + run.out().substring(9).strip() + "</version>"),
                run::out);
    }

    @Test
    void beginSaysWhatItWrote() {
        var trial = home.resolve("mine");
        var run = Run.of("begin", trial);
        assertDone(run);
        assertEquals(
                "Written: " + trial.resolve("plan.yaml") + ".\nFill it in with any text editor, then: fairtray check "
                        + trial + ", and fairtray lay " + trial + ".\n",
                run.out());
    }

    @Test
    void beginPrintsOnlyJson() {
        var trial = home.resolve("mine");
        var run = Run.of("begin", trial, "--json", "--like", "soak-or-not");
        assertDone(run);
        assertEquals(trial.toString(), run.json().get("folder").getAsString());
        assertEquals("[\"plan.yaml\"]", run.json().get("files").toString());
    }

    @Test
    void checkSaysHowFarATrialHasCome() {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        var title = "Does soaking bring more roots through?: nothing wrong.\n";
        assertEquals(
                title + "layout.csv: none yet.\nreadings.csv: no readings yet.\n",
                Run.of("check", trial).out());
        Run.of("lay", trial, "--seed", 7);
        assertEquals(
                title + "layout.csv: 12 trays.\nreadings.csv: no readings yet.\n",
                Run.of("check", trial).out());
    }

    @Test
    void restrictionsAreSaidAndSealed() throws IOException {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        var plan = trial.resolve("plan.yaml");
        Files.writeString(plan, Files.readString(plan) + "restrictions: [{keep_apart: soak}]\n");
        var run = Run.of("lay", trial, "--seed", 7);
        assertDone(run);
        assertTrue(
                run.out().contains("Only layouts are drawn in which the same soak never lies side by side.\n"),
                run::out);
        var seal = JsonParser.parseString(Files.readString(trial.resolve("seal.json")));
        assertEquals(
                "[\"the same soak never lies side by side\"]",
                seal.getAsJsonObject().get("restrictions").toString());
        var audit = Run.of("audit", trial).out();
        assertFalse(audit.contains("patterned") || audit.contains("restriction broken"), audit);
    }

    @Test
    void checkPrintsOnlyJson() throws IOException {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        var sound = Run.of("check", trial, "--json");
        assertDone(sound);
        assertTrue(sound.json().get("sound").getAsBoolean());
        assertEquals(0, sound.json().getAsJsonArray("problems").size());

        var plan = trial.resolve("plan.yaml");
        Files.writeString(plan, Files.readString(plan).replace("levels: [0, 8]", "lvels: [0, 8]"));
        var faulty = Run.of("check", trial, "--json");
        assertEquals(Fairtray.PROBLEM, faulty.status());
        assertEquals("", faulty.err());
        assertFalse(faulty.json().get("sound").getAsBoolean());
        var problem = faulty.json().getAsJsonArray("problems").get(0).getAsJsonObject();
        assertEquals(
                "{\"file\":\"plan.yaml\",\"line\":12,\"found\":\"unknown key 'lvels'\",\"expected\":\"one of name, unit,"
                        + " levels, applied_to\",\"nearest\":\"levels\"}",
                problem.toString());
    }

    @Test
    void laySaysWhatItDrew() {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        var run = Run.of("lay", trial, "--seed", 7);
        assertDone(run);
        assertEquals("""
                Does soaking bring more roots through?
                A randomised blocks layout: soak on 12 × tray; differences between shelf (3) are set aside.
                The levels of soak are given at random to single trays, equally often within each shelf.
                12 trays.
                Seed 7 (xoshiro256++, seeded by SplitMix64), kept in seal.json.
                Written: layout.csv, seal.json, sheets.pdf, key.pdf.
                In sheets.pdf are Rack map: page 1; Day by day: pages 2 to 3; Counting sheets: pages 4 to 9; Labels: page 10.
                """, run.out());
    }

    @Test
    void layPrintsOnlyJson() {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        var run = Run.of("lay", trial, "--seed", 7, "--json");
        assertDone(run);
        assertEquals(12, run.json().get("trays").getAsInt());
        assertEquals(0, run.json().get("empty_places").getAsInt());
        assertEquals("randomised blocks", run.json().get("design").getAsString());
        assertEquals(7, run.json().get("seed").getAsLong());
        assertTrue(run.json().get("readings_set_aside").isJsonNull());
        assertEquals(
                "[\"layout.csv\",\"seal.json\",\"sheets.pdf\",\"key.pdf\"]",
                run.json().get("files").toString());
    }

    @Test
    void theSameSeedGivesTheSameBytes() throws IOException {
        for (var name : List.of("one", "two", "three")) {
            Run.of("begin", home.resolve(name), "--like", "weight-by-soak");
            assertDone(Run.of("lay", home.resolve(name), "--seed", name.equals("three") ? 8 : 7));
        }
        byte[] first = Files.readAllBytes(home.resolve("one/layout.csv"));
        assertArrayEquals(first, Files.readAllBytes(home.resolve("two/layout.csv")));
        assertFalse(java.util.Arrays.equals(first, Files.readAllBytes(home.resolve("three/layout.csv"))));
    }

    @Test
    void withoutASeedOneIsDrawnThatGivesTheSameLayoutAgain() throws IOException {
        var drawn = home.resolve("drawn");
        Run.of("begin", drawn, "--like", "weight-by-soak");
        assertDone(Run.of("lay", drawn));
        var seed = JsonParser.parseString(Files.readString(drawn.resolve("seal.json")))
                .getAsJsonObject()
                .get("seed")
                .getAsLong();
        var again = home.resolve("again");
        Run.of("begin", again, "--like", "weight-by-soak");
        assertDone(Run.of("lay", again, "--seed", seed));
        assertArrayEquals(
                Files.readAllBytes(drawn.resolve("layout.csv")), Files.readAllBytes(again.resolve("layout.csv")));
    }

    private static final String ASSUMED =
            "Too few trays were named only where they are too few even if trays treated alike differ"
                    + " by their seeds alone: expect doesn't say tray_correlation (0.05 is cautious; common practice, no source).";

    @Test
    void auditFindsNothingInAFreshLayoutAndPrintsOnlyJson() {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        Run.of("lay", trial, "--seed", 7);
        var run = Run.of("audit", trial);
        assertDone(run);
        assertEquals(
                "Does soaking bring more roots through?: nothing unfair was found in the layout.\n\n" + ASSUMED + "\n",
                run.out());
        assertEquals(
                "{\"fair\":true,\"findings\":[],\"notes\":[\"" + ASSUMED + "\"],\"advice\":[]}",
                Run.of("audit", trial, "--json").json().toString());
    }

    @Test
    void auditSaysWhatIsUnfairAndIsDoneAllTheSame() throws IOException {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        Run.of("lay", trial, "--seed", 7);
        Files.delete(trial.resolve("seal.json"));
        var run = Run.of("audit", trial);
        assertDone(run);
        assertEquals("""
                Does soaking bring more roots through?: 1 found.

                not randomised
                  Nothing shows that chance decided which tray got what: the layout has no seal.
                  What mends it: Before sowing, let lay draw the layout. If it was drawn by lot by hand, write down how.

                """ + ASSUMED + "\n", run.out());
        assertFalse(Run.of("audit", trial, "--json").json().get("fair").getAsBoolean());
    }

    @Test
    void demoMakesATrialItsReportAndItsVerdicts() throws IOException {
        var folder = home.resolve("demo");
        var run = Run.of("demo", folder);
        assertDone(run);
        assertEquals(ALL_FILES, names(folder));
        assertTrue(
                run.out()
                        .startsWith("Invented data: made by a computer for this demonstration, no one counted these"
                                + " seeds.\n"),
                run::out);
        assertTrue(
                run.out()
                        .endsWith("\nReport: " + folder.resolve("report.html").toAbsolutePath()
                                + "\nBeside it are the sheets that such a trial takes to the rack: sheets.pdf, and key.pdf,"
                                + " which is kept closed.\n"),
                run::out);
        for (var verdict : List.of("  changed: ", "  no worthwhile change: ", "  cannot tell: ")) {
            assertTrue(run.out().contains(verdict), () -> verdict + "\n" + run.out());
        }
        assertTrue(Files.readString(folder.resolve("report.html")).contains("Invented data"));
        assertDone(Run.of("check", folder));
    }

    @Test
    void demoAgainInItsOwnFolderSaysTheSame() throws IOException {
        var folder = home.resolve("demo");
        var first = Run.of("demo", folder);
        byte[] readings = Files.readAllBytes(folder.resolve("readings.csv"));
        byte[] layout = Files.readAllBytes(folder.resolve("layout.csv"));
        var second = Run.of("demo", folder);
        assertDone(second);
        assertEquals(first.out(), second.out());
        assertEquals(ALL_FILES, names(folder));
        assertArrayEquals(readings, Files.readAllBytes(folder.resolve("readings.csv")));
        assertArrayEquals(layout, Files.readAllBytes(folder.resolve("layout.csv")));
    }

    @Test
    void demoLeavesSomebodyElsesTrialAlone() throws IOException {
        var folder = home.resolve("mine");
        Run.of("begin", folder);
        Run.of("lay", folder, "--seed", 7);
        var before = Files.readString(folder.resolve("layout.csv"));
        var run = Run.of("demo", folder);
        assertEquals(Fairtray.PROBLEM, run.status());
        assertEquals(
                "plan.yaml: found it already there; expected no such file yet; --replace replaces it\n", run.err());
        assertEquals(Set.of("plan.yaml", "layout.csv", "seal.json", "sheets.pdf", "key.pdf"), names(folder));
        assertEquals(before, Files.readString(folder.resolve("layout.csv")));
    }

    @Test
    void demoAndAnalysePrintTheirResultsAsJson() throws IOException {
        var folder = home.resolve("demo");
        var demo = Run.of("demo", folder, "--json");
        assertDone(demo);
        var analyse = Run.of("analyse", folder, "--json");
        assertDone(analyse);
        assertEquals(Files.readString(folder.resolve("results.json")), analyse.out());
        assertEquals(demo.json(), analyse.json());
        assertTrue(analyse.json().get("sealed").getAsBoolean());
        assertEquals(2, analyse.json().getAsJsonArray("outcomes").size());
    }

    @Test
    void bootstrapAddsItsPAndTakesNoNegativeNumber() {
        assertDone(Run.of("demo", home.resolve("d")));
        var run = Run.of("analyse", home.resolve("d"), "--bootstrap", 2, "--json");
        assertDone(run);
        var outcome = run.json().getAsJsonArray("outcomes").get(0).getAsJsonObject();
        var fits = outcome.getAsJsonObject("logistic").getAsJsonObject("fits");
        var term = fits.getAsJsonObject("mixed").getAsJsonArray("terms").get(0).getAsJsonObject();
        assertTrue(term.get("bootstrap_p").getAsDouble() >= 1.0 / 3, term::toString);
        assertFalse(fits.get("binomial").toString().contains("bootstrap_p"), "only where it was asked for");
        var wrong = Run.of("analyse", home.resolve("d"), "--bootstrap", -1);
        assertEquals(Fairtray.USAGE, wrong.status());
        assertEquals("--bootstrap -1: expected a number of draws, 0 or more", wrong.complaints()[0]);
    }
}
