package org.fairtray.sharing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.fairtray.command.Run;
import org.fairtray.design.Generator;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.TrialFolder;
import org.fairtray.packs.Pack;
import org.fairtray.packs.PackFile;
import org.fairtray.sizing.InventedReadings;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A pack that agrees with itself, and one lie in each of its files. */
class VerificationTest {
    private static final String PLAN = """
            format: 1
            trial: Cress in frames that move
            factors: [{name: soak, unit: h, levels: [0, 8]}]
            place: [{name: shelf, count: 2}, {name: spot, count: 6}]
            counting: {days: [3, 5], frames_per_tray: 2, seeds_per_frame: 30, tray_cm: [40, 30], frame_cm: [8, 8]}
            rotation: {level: spot, days: [2, 4]}
            outcomes: [{name: through, kind: count, of: sown, day: 5}]
            expect: {worthwhile: 0.2}
            """;

    private static final List<String> NEVER =
            List.of("the counts", "the time of the draw", "other draws", "the counters");

    @TempDir
    private static Path home;

    private static SortedMap<String, byte[]> sound;

    @BeforeAll
    static void pack() throws Exception {
        var folder = home.resolve("trial");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("plan.yaml"), PLAN);
        assertEquals(0, Run.of("lay", folder, "--seed", 7).status());
        var trial = new TrialFolder(folder);
        var files = trial.read();
        var readings = new InventedReadings(t -> 2, t -> 0, t -> 1.5, Map.of("tray", 0.2))
                .of(files.trial(), files.layout().orElseThrow(), Generator.of(3));
        trial.writeReadings(files.trial(), readings, List.of(), false);
        sound = PackFile.read(
                        "pack",
                        Packing.of(trial, new PhotoFolder(folder), PackOptions.USUAL)
                                .pack())
                .files();
    }

    /** A liar packs again, so that every hash in datapackage.json fits. */
    private static Pack packed(SortedMap<String, byte[]> files) {
        var others = new TreeMap<>(files);
        others.remove("datapackage.json");
        return PackFile.read(
                "lie",
                PackFile.bytes(new PackFile.About("0.1.0", Optional.empty(), Optional.empty(), List.of()), others));
    }

    private static Map<String, String> verdicts(Pack pack) {
        return Verification.of(pack).checks().stream()
                .collect(Collectors.toMap(Check::what, Check::verdict, (a, b) -> a, TreeMap::new));
    }

    private static Verification lie(String name, UnaryOperator<String> told) {
        var files = new TreeMap<>(sound);
        var before = new String(files.get(name), StandardCharsets.UTF_8);
        var after = told.apply(before);
        assertFalse(after.equals(before), "the lie is not told");
        files.put(name, after.getBytes(StandardCharsets.UTF_8));
        return Verification.of(packed(files));
    }

    private static String sentence(Verification verification, String what, String verdict) {
        return verification.checks().stream()
                .filter(c -> c.what().equals(what) && c.verdict().equals(verdict))
                .map(Check::sentence)
                .findFirst()
                .orElseThrow(
                        () -> new AssertionError(what + " isn't said to be " + verdict + ": " + verification.checks()));
    }

    @Test
    void aSoundPackAgreesInAllThatCanBeTold() {
        var verification = Verification.of(packed(sound));
        assertFalse(verification.differs());
        var verdicts = verdicts(packed(sound));
        NEVER.forEach(what -> assertEquals(Check.CANNOT_BE_TOLD, verdicts.remove(what), what));
        assertEquals(
                Map.of(
                        "the files", "agrees",
                        "the seal", "agrees",
                        "the layout", "agrees",
                        "the frames", "agrees",
                        "the moves", "agrees",
                        "the numbers of the analysis", "agrees",
                        "the verdicts", "agrees",
                        "the report", "agrees"),
                verdicts);
    }

    @Test
    void aChangedPlan() {
        var verification = lie("plan.yaml", t -> t.replace("worthwhile: 0.2", "worthwhile: 0.3"));
        assertEquals("The plan was changed after it was sealed.", sentence(verification, "the seal", Check.DIFFERS));
        assertTrue(verification.differs());
    }

    @Test
    void aChangedLayout() {
        var verification = lie(
                "layout.csv",
                t -> t.replace("T01,1,1,0", "T01,1,1,x")
                        .replace("T01,1,1,8", "T01,1,1,0")
                        .replace("T01,1,1,x", "T01,1,1,8"));
        assertEquals("The layout was changed after it was sealed.", sentence(verification, "the seal", Check.DIFFERS));
        assertEquals(
                "Drawn again from plan and seed 7: something else.",
                sentence(verification, "the layout", Check.DIFFERS));
    }

    @Test
    void anotherSeedInTheSeal() {
        var verification = lie("seal.json", t -> t.replace("\"seed\": 7", "\"seed\": 8"));
        sentence(verification, "the seal", Check.AGREES);
        for (var what : List.of("the layout", "the frames", "the moves")) {
            assertEquals(
                    "Drawn again from plan and seed 8: something else.", sentence(verification, what, Check.DIFFERS));
        }
    }

    @Test
    void anotherGeneratorOrVersionCannotBeTold() {
        assertEquals(
                "It was drawn by 'dice', which this version doesn't have.",
                sentence(
                        lie("seal.json", t -> t.replaceFirst("\"generator\": \"[^\"]*\"", "\"generator\": \"dice\"")),
                        "the layout",
                        Check.CANNOT_BE_TOLD));
        assertEquals(
                "Drawn again from plan and seed 8 by version 0.1.0: something else. Version '9\\u001b[2J' drew it, and may"
                        + " have drawn in another way.",
                sentence(
                        lie(
                                "seal.json",
                                t -> t.replace("\"seed\": 7", "\"seed\": 8")
                                        .replaceFirst("\"version\": \"[^\"]*\"", "\"version\": \"9\\\\u001b[2J\"")),
                        "the layout",
                        Check.CANNOT_BE_TOLD));
    }

    @Test
    void changedFrames() {
        var verification = lie(
                "frames.csv",
                t -> t.replaceFirst("T01,1,[\\d.]+,[\\d.]+", "T01,1,31.0,21.5")
                        .replaceFirst("T01,2,[\\d.]+,[\\d.]+", "T01,2,1.0,1.0"));
        assertEquals(
                "Where the counting frames lie (frames.csv) was changed after it was sealed.",
                sentence(verification, "the seal", Check.DIFFERS));
        sentence(verification, "the frames", Check.DIFFERS);
    }

    @Test
    void changedMoves() {
        // Two trays of one shelf exchange their places on day 2.
        var verification = lie("rotation.csv", VerificationTest::exchanged);
        assertEquals(
                "How the trays move (rotation.csv) was changed after it was sealed.",
                sentence(verification, "the seal", Check.DIFFERS));
        sentence(verification, "the moves", Check.DIFFERS);
    }

    private static String exchanged(String moves) {
        var lines = moves.lines().toList();
        var first = lines.get(1).split(",");
        var second = lines.stream()
                .skip(2)
                .map(l -> l.split(","))
                .filter(l -> l[0].equals(first[0]) && l[2].equals(first[2]))
                .findFirst()
                .orElseThrow();
        return moves.replace(String.join(",", first), "FIRST")
                .replace(String.join(",", second), String.join(",", second[0], second[1], second[2], first[3]))
                .replace("FIRST", String.join(",", first[0], first[1], first[2], second[3]));
    }

    @Test
    void changedReadings() {
        var verification = lie("readings.csv", VerificationTest::oneMore);
        var said = sentence(verification, "the numbers of the analysis", Check.DIFFERS);
        assertTrue(said.matches("\\d+ values differ: 'outcomes\\[0\\]\\..*, .* and \\d+ more\\."), said);
        assertEquals("Made again, it comes out otherwise.", sentence(verification, "the report", Check.DIFFERS));
    }

    /** The last count of the first line one lower. */
    private static String oneMore(String readings) {
        var line = readings.lines()
                .filter(l -> l.startsWith("T01,5,1"))
                .findFirst()
                .orElseThrow();
        int at = line.lastIndexOf(',') + 1;
        return readings.replace(line, line.substring(0, at) + (Integer.parseInt(line.substring(at)) - 1));
    }

    @Test
    void oneChangedNumber() {
        var verification = lie("results.json", t -> t.replaceFirst("\"p\": 0\\.\\d+", "\"p\": 0.0401"));
        var said = sentence(verification, "the numbers of the analysis", Check.DIFFERS);
        assertTrue(said.matches("1 value differs: 'outcomes\\[0\\]\\.[^']*p'\\."), said);
        sentence(verification, "the verdicts", Check.AGREES);
        sentence(verification, "the report", Check.AGREES);
    }

    @Test
    void aChangedVerdict() {
        var verification =
                lie("results.json", t -> t.replaceFirst("\"verdict\": \"[^\"]*\"", "\"verdict\": \"tripled\""));
        var said = sentence(verification, "the verdicts", Check.DIFFERS);
        assertTrue(said.matches("What comes out here is speed of \"through\", \"soak\": \"[a-z ]+\"\\."), said);
    }

    @Test
    void numbersOfAnotherVersionCannotBeTold() {
        var verification = lie(
                "results.json",
                t -> t.replaceFirst("\"fairtray\": \"[^\"]*\"", "\"fairtray\": \"7.7\"")
                        .replaceFirst("\"p\": 0\\.\\d+", "\"p\": 0.0401"));
        var said = sentence(verification, "the numbers of the analysis", Check.CANNOT_BE_TOLD);
        assertTrue(said.startsWith("Version '7.7' made them, this is version 0.1.0; 1 value differs: "), said);
        assertFalse(verification.differs());
    }

    @Test
    void theLastDigitsOfANumberMayDiffer() {
        var verification = lie("results.json", t -> t.replaceFirst("(\"p\": 0\\.\\d{12})\\d*", "$1"));
        sentence(verification, "the numbers of the analysis", Check.AGREES);
    }

    @Test
    void aChangedReport() {
        assertEquals(
                "Made again, it comes out otherwise.",
                sentence(
                        lie("report.html", t -> t.replaceFirst("</h1>", " tripled</h1>")),
                        "the report",
                        Check.DIFFERS));
        assertEquals(
                "Made again, it comes out otherwise.",
                sentence(lie("report.html", t -> t.replaceFirst("</text>", "0</text>")), "the report", Check.DIFFERS));
    }

    /** Fonts move words in a picture by a hair. */
    @Test
    void aPictureDrawnWithOtherFontsIsNoLie() {
        var verification = lie("report.html", t -> t.replaceFirst("<text([^>]*) x=\"", "<text$1 x=\"1"));
        assertTrue(sentence(verification, "the report", Check.CANNOT_BE_TOLD).endsWith("other fonts."));
    }

    @Test
    void resultsWithoutReadingsDiffer() {
        var files = new TreeMap<>(sound);
        files.remove("readings.csv");
        assertEquals(
                "There are no readings that it could come from.",
                sentence(Verification.of(packed(files)), "the numbers of the analysis", Check.DIFFERS));
    }

    @Test
    void whatIsNotThereCannotBeTold() {
        var files = new TreeMap<>(sound);
        files.keySet().removeAll(List.of("results.json", "report.html", "seal.json"));
        var verification = Verification.of(packed(files));
        assertFalse(verification.differs());
        assertEquals(
                "The pack has no results.json and no report.html.",
                sentence(verification, "the numbers of the analysis", Check.CANNOT_BE_TOLD));
        sentence(verification, "the seal", Check.CANNOT_BE_TOLD);
        sentence(verification, "the layout", Check.CANNOT_BE_TOLD);
    }

    @Test
    void whatTakesTooLongCannotBeTold() {
        var verification = Verification.of(packed(sound), new Deadline(Duration.ZERO));
        assertEquals(
                "To work it out again takes longer than 0 minutes on this computer.",
                sentence(verification, "the numbers of the analysis", Check.CANNOT_BE_TOLD));
        sentence(verification, "the layout", Check.CANNOT_BE_TOLD);
    }
}
