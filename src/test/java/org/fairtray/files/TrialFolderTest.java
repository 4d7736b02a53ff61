package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;

class TrialFolderTest {
    private static final String PLAN = """
            format: 1
            trial: Two mats
            factors: [{name: mat, levels: [hemp, coir]}]
            place: [{name: spot, count: 2}]
            counting: {days: [1], seeds_per_frame: 10}
            outcomes: [{name: through, kind: count, day: 1}]
            """;
    private static final Draw DRAW = new Draw(42, "invented", List.of(), "2026-03-01T08:00:00Z", "0.1.0");

    @TempDir
    private Path path;

    private TrialFolder folder;

    @BeforeEach
    void writePlan() {
        folder = new TrialFolder(path);
        folder.writePlan(PLAN, false);
    }

    private static Layout layout(String first, String second) {
        return new Layout(List.of(tray("A", 1, first), tray("B", 2, second)));
    }

    private static Tray tray(String code, int spot, String mat) {
        return new Tray(code, new Stand(List.of(spot)), Map.of(), new Treatment(Map.of("mat", mat)));
    }

    private static List<Reading> readings(int through) {
        return List.of(
                new Reading("A", 1, 1, OptionalInt.empty(), Map.of("through", (double) through), Map.of("note", "x")));
    }

    private List<String> names() throws IOException {
        try (Stream<Path> files = Files.list(path)) {
            return files.map(f -> f.getFileName().toString()).sorted().toList();
        }
    }

    private static void assertProblem(String expected, Executable action) {
        assertEquals(expected, assertThrows(ProblemsException.class, action).getMessage());
    }

    @Test
    void writesLayoutAndSealThatHold() throws IOException {
        var laid = folder.writeLayout(folder.readPlan(), layout("hemp", "coir"), DRAW, false);
        assertEquals(Optional.empty(), laid.readingsSetAside());
        assertEquals("tray,spot,mat\nA,1,hemp\nB,2,coir\n", Files.readString(path.resolve("layout.csv")));
        var files = folder.read();
        assertEquals(Optional.of(layout("hemp", "coir")), files.layout());
        assertEquals(Optional.of(laid.seal()), files.seal());
        assertEquals(Seal.State.HOLDS, files.sealState());
        assertEquals(files.planSha256(), laid.seal().planSha256());
        assertEquals(files.layoutSha256(), Optional.of(laid.seal().layoutSha256()));
        assertEquals(List.of("layout.csv", "plan.yaml", "seal.json"), names());
    }

    @Test
    void sealSaysWhatWasChanged() throws IOException {
        folder.writeLayout(folder.readPlan(), layout("hemp", "coir"), DRAW, false);
        Files.writeString(path.resolve("layout.csv"), "tray,spot,mat\nA,1,coir\nB,2,hemp\n");
        assertEquals(Seal.State.LAYOUT_CHANGED, folder.read().sealState());
        Files.writeString(path.resolve("plan.yaml"), PLAN + "# later\n");
        assertEquals(Seal.State.BOTH_CHANGED, folder.read().sealState());
        Files.writeString(path.resolve("layout.csv"), "tray,spot,mat\nA,1,hemp\nB,2,coir\n");
        assertEquals(Seal.State.PLAN_CHANGED, folder.read().sealState());
        Files.delete(path.resolve("layout.csv"));
        assertEquals(Seal.State.BOTH_CHANGED, folder.read().sealState());
        Files.delete(path.resolve("seal.json"));
        assertEquals(Seal.State.ABSENT, folder.read().sealState());
    }

    @Test
    void knownSha256() {
        var file = new StoredFile("abc", "abc".getBytes(StandardCharsets.UTF_8));
        // FIPS 180-2, appendix B.1.
        assertEquals("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", file.sha256());
    }

    @Test
    void replacesNothingUnasked() throws IOException {
        var trial = folder.readPlan();
        folder.writeLayout(trial, layout("hemp", "coir"), DRAW, false);
        folder.writeReadings(trial, readings(3), List.of(), false);
        assertProblem(
                "plan.yaml: found it already there; expected no such file yet; --replace replaces it",
                () -> folder.writePlan("", false));
        assertProblem(
                "readings.csv: found it already there; expected no such file yet; --replace replaces it",
                () -> folder.writeReadings(trial, readings(4), List.of(), false));
        assertProblem("""
                layout.csv: found it already there; expected no such file yet; --replace replaces it
                seal.json: found it already there; expected no such file yet; --replace replaces it
                readings.csv: found it already there; expected no such file yet; --replace replaces it""", () -> folder.writeLayout(trial, layout("coir", "hemp"), DRAW, false));
        assertEquals(Optional.of(layout("hemp", "coir")), folder.read().layout());
        assertEquals(readings(3), folder.read().readings());
    }

    @Test
    void replacingALayoutSetsItsReadingsAside() throws IOException {
        var trial = folder.readPlan();
        folder.writeLayout(trial, layout("hemp", "coir"), DRAW, false);
        for (int time = 1; time <= 2; time++) {
            folder.writeReadings(trial, readings(time), List.of(), false);
            var laid =
                    folder.writeLayout(trial, time == 1 ? layout("coir", "hemp") : layout("hemp", "coir"), DRAW, true);
            var name = "readings-set-aside-" + time + ".csv";
            assertEquals(Optional.of(name), laid.readingsSetAside());
            assertEquals("tray,day,through,note\nA,1," + time + ",x\n", Files.readString(path.resolve(name)));
            assertEquals(List.of(), folder.read().readings());
        }
        assertEquals(Optional.of(layout("hemp", "coir")), folder.read().layout());
    }

    @Test
    void readingsStayWhereTheSameLayoutIsWrittenAgain() throws IOException {
        var trial = folder.readPlan();
        folder.writeLayout(trial, layout("hemp", "coir"), DRAW, false);
        folder.writeReadings(trial, readings(3), List.of(), false);
        assertEquals(
                Optional.empty(),
                folder.writeLayout(trial, layout("hemp", "coir"), DRAW, true).readingsSetAside());
        assertEquals(readings(3), folder.read().readings());
    }

    @Test
    void keepsReadingsWhereTheyAreWhenTheirLayoutCannotBeReplaced() throws IOException {
        var trial = folder.readPlan();
        folder.writeReadings(trial, readings(3), List.of(), false);
        Files.createDirectories(path.resolve("layout.csv").resolve("in the way"));
        assertThrows(ProblemsException.class, () -> folder.writeLayout(trial, layout("coir", "hemp"), DRAW, true));
        assertEquals(List.of("layout.csv", "plan.yaml", "readings.csv"), names());
    }

    @Test
    void makesNoFolderWhereAFileStands() {
        var plan = path.resolve("plan.yaml");
        assertProblem(
                plan + ": found that it can't be made (a file has this name); expected a folder of your own",
                () -> new TrialFolder(plan).writePlan(PLAN, true));
    }

    @Test
    void refusesALayoutOfAnotherPlan() throws IOException {
        var trial = folder.readPlan();
        folder.writePlan(PLAN.replace("Two mats", "Other mats"), true);
        assertProblem(
                "plan.yaml: found a plan changed since the layout was drawn; expected the same plan; lay again",
                () -> folder.writeLayout(trial, layout("hemp", "coir"), DRAW, false));
        assertEquals(List.of("plan.yaml"), names());
    }

    @Test
    void leavesNothingBehindWhenOneOfTwoFilesCannotBeWritten() throws IOException {
        var trial = folder.readPlan();
        Files.createDirectories(path.resolve("layout.csv").resolve("in the way"));
        assertProblem(
                "layout.csv: found that it can't be written (a folder has this name);"
                        + " expected a folder you may write to, with room on the disk",
                () -> folder.writeLayout(trial, layout("hemp", "coir"), DRAW, true));
        assertEquals(List.of("layout.csv", "plan.yaml"), names());
    }

    @Test
    void putsBackWhatWasMovedWhenALaterMoveFails() throws IOException {
        Files.writeString(path.resolve("first"), "old");
        Files.createDirectories(path.resolve("taken").resolve("in the way"));
        var contents = new LinkedHashMap<String, byte[]>();
        contents.put("first", bytes("new"));
        contents.put("second", bytes("new"));
        contents.put("taken", bytes("new"));
        assertProblem(
                "taken: found that it can't be written (a folder has this name);"
                        + " expected a folder you may write to, with room on the disk",
                () -> WholeFile.replace(path, contents));
        assertEquals("old", Files.readString(path.resolve("first")));
        assertEquals(List.of("first", "plan.yaml", "taken"), names());
    }

    @Test
    void writesResultsOverEarlierOnes() throws IOException {
        folder.write("results.json", bytes("{}"));
        folder.write("results.json", bytes("{\"a\": 1}"));
        assertArrayEquals(bytes("{\"a\": 1}"), Files.readAllBytes(path.resolve("results.json")));
        assertEquals(List.of("plan.yaml", "results.json"), names());
    }

    @Test
    void writesNoResultOverAnInputOrElsewhere() {
        for (var name : List.of("plan.yaml", "readings.csv", "../results.json", "a/b")) {
            assertThrows(IllegalArgumentException.class, () -> folder.write(name, new byte[0]), name);
        }
    }

    @Test
    void saysSoWhereTheFolderCannotBeWritten() throws IOException {
        var root = path.toFile();
        assumeFalse(!root.setWritable(false) || root.canWrite(), "this user may write anywhere");
        try {
            assertProblem(
                    "results.json: found that it can't be written (no permission);"
                            + " expected a folder you may write to, with room on the disk",
                    () -> folder.write("results.json", bytes("{}")));
        } finally {
            root.setWritable(true);
        }
        assertEquals(List.of("plan.yaml"), names());
    }

    @Test
    void saysWhatStandsInPlaceOfTheFolderOrAFile() throws IOException {
        var missing = path.resolve("missing");
        assertProblem(
                missing + ": found no such folder; expected the folder of a trial",
                () -> new TrialFolder(missing).read());
        var plan = path.resolve("plan.yaml");
        assertProblem(plan + ": found a file; expected the folder of a trial", () -> new TrialFolder(plan).readPlan());
        Files.createDirectory(path.resolve("layout.csv"));
        Files.createDirectory(path.resolve("seal.json"));
        assertProblem("""
                layout.csv: found a folder or device of this name; expected a file
                seal.json: found a folder or device of this name; expected a file""", folder::read);
    }

    @Test
    void keepsColumnsOfNotesInTheirOrderThroughReadingAndWriting() throws IOException {
        var trial = folder.readPlan();
        folder.writeLayout(trial, layout("hemp", "coir"), DRAW, false);
        var text = "tray,day,through,weather,note,empty\nA,1,3,,x,\nB,1,4,dry,,\n";
        Files.writeString(path.resolve("readings.csv"), text);
        var files = folder.read();
        folder.writeReadings(trial, files.readings(), files.noteColumns(), true);
        assertEquals(text, Files.readString(path.resolve("readings.csv")));
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
