package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.fairtray.packs.PackFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What pack, verify and begin --like FILE.zip print, write and refuse. */
class PackCommandsTest {
    private static final String PLAN = """
            format: 1
            trial: "Größe: Cress?"
            factors: [{name: soak, unit: h, levels: [0, 8]}]
            place: [{name: shelf, count: 2}, {name: spot, count: 6}]
            counting: {days: [5], seeds_per_frame: 50}
            outcomes: [{name: through, kind: count, of: sown, day: 5}]
            """;

    private static final String NEVER =
            "Never in a pack: readings.journal, sheets to print, and the names of folders and computers.\n";
    private static final String NO_LICENCE = """
            No licence is given, so others don't know what they may do with it.
              --licence CC-BY-4.0 lets them do whatever they like, if they name you.
            """;

    @TempDir
    private Path home;

    private Path trial() throws IOException {
        var folder = home.resolve("mine");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("plan.yaml"), PLAN);
        assertEquals(0, Run.of("lay", folder, "--seed", 7).status());
        var rows = new StringBuilder("tray,day,through,by\n");
        for (var line : Files.readAllLines(folder.resolve("layout.csv")).subList(1, 13)) {
            rows.append(line.split(",", -1)[0]).append(line.endsWith(",8") ? ",5,30,Anna\n" : ",5,21,Anna\n");
        }
        Files.writeString(folder.resolve("readings.csv"), rows);
        return folder;
    }

    private Set<String> names() throws IOException {
        try (var files = Files.list(home)) {
            return files.map(f -> f.getFileName().toString()).collect(Collectors.toSet());
        }
    }

    @Test
    void packSaysWhatStaysAtHomeAndWritesOneFile() throws IOException {
        var run = Run.of("pack", trial());
        assertEquals("", run.err());
        assertEquals(0, run.status());
        assertEquals(
                """
                Größe: Cress?
                Left out:
                  readings.csv, column 'by': who counted (--with by)
                  seal.json, the time of day of the draw; its date stays (--with times)
                """
                        + NEVER
                        + "plan.yaml goes as it is, because a seal is on its bytes: with what it says in trial. Read it"
                        + " through.\n"
                        + NO_LICENCE
                        + "Written: " + home.resolve("grosse-cress.zip") + ".\n",
                run.out());
        assertEquals(Set.of("mine", "grosse-cress.zip"), names());
    }

    @Test
    void packPrintsOnlyJson() throws IOException {
        var json =
                Run.of("pack", trial(), "--json", "--to", home.resolve("x.zip")).json();
        assertEquals(home.resolve("x.zip").toString(), json.get("file").getAsString());
        assertEquals(
                "{\"what\":\"readings.csv, column 'by': who counted\",\"with\":\"by\"}",
                json.getAsJsonArray("left_out").get(0).toString());
        assertTrue(Files.exists(home.resolve("x.zip")));
    }

    @Test
    void aDryRunWritesNothing() throws IOException {
        var run = Run.of("pack", trial(), "--dry-run");
        assertTrue(run.out().endsWith("\nNothing was written.\n"), run::out);
        assertEquals(Set.of("mine"), names());
        assertTrue(Run.of("pack", home.resolve("mine"), "--dry-run", "--json")
                .json()
                .get("file")
                .isJsonNull());
    }

    @Test
    void aFileThatIsThereStays() throws IOException {
        var folder = trial();
        var file = home.resolve("grosse-cress.zip");
        Files.writeString(file, "mine");
        var run = Run.of("pack", folder);
        assertEquals(1, run.status());
        assertEquals(file + ": found it already there; expected no such file yet; --replace replaces it\n", run.err());
        assertEquals("mine", Files.readString(file));
        assertEquals(0, Run.of("pack", folder, "--replace").status());
        assertEquals(
                2, PackFile.read(file).trial().trial().factor("soak").levels().size());
    }

    @Test
    void wrongWordsAreTold() throws IOException {
        var folder = trial();
        assertEquals(
                "--with photo: expected one of by, notes, times, photos; nearest: photos",
                Run.of("pack", folder, "--with", "photo").complaints()[0]);
        assertEquals(
                "--farm my farm: expected 1 to 40 letters, digits, '.', '_' or '-'",
                Run.of("pack", folder, "--farm", "my farm").complaints()[0]);
        assertEquals(2, Run.of("pack", folder, "--licence", "<b>").status());
        assertEquals(Set.of("mine"), names());
    }

    @Test
    void verifySaysThatASoundPackAgrees() throws IOException {
        var file = home.resolve("x.zip");
        Run.of("pack", trial(), "--to", file, "--farm", "north-1", "--licence", "CC-BY-4.0");
        var before = Files.readAllBytes(file);
        var run = Run.of("verify", file);
        assertEquals("", run.err());
        assertEquals(0, run.status());
        var id = PackFile.read(file).id();
        assertEquals("""
                Größe: Cress?
                Packed by version 0.1.0, farm north-1, licence CC-BY-4.0.

                agrees: the files. All 7 are the ones that were packed, by their SHA-256; the pack's own is %s.
                agrees: the seal. Plan and layout are those that were sealed.
                agrees: the layout. Drawn again from plan and seed 7: the same.
                agrees: the numbers of the analysis. Analysed again, every number of results.json comes out the same.
                agrees: the verdicts. All 1 come out the same.
                agrees: the report. Made again, it comes out the same to the byte.
                cannot be told: the counts. Whether they are what stood in the trays, nobody can tell from a pack.
                cannot be told: the time of the draw. Whether it was drawn before it was sown: its date is only written down.
                cannot be told: other draws. Whether others were drawn before and thrown away, until one was liked: nothing shows.
                cannot be told: the counters. Who counted, and whether they knew what a tray had got.

                Nothing differs. That the pack agrees with itself doesn't make its counts true.
                """.formatted(id), run.out());
        var json = Run.of("verify", file, "--json").json();
        assertEquals(id, json.get("id").getAsString());
        assertEquals("north-1", json.get("farm").getAsString());
        assertFalse(json.get("differs").getAsBoolean());
        assertArrayEquals(before, Files.readAllBytes(file));
        assertEquals(Set.of("mine", "x.zip"), names());
    }

    @Test
    void verifyEndsWithOneWhereSomethingDiffers() throws IOException {
        var file = home.resolve("x.zip");
        Run.of("pack", trial(), "--to", file);
        var files = new TreeMap<>(PackFile.read(file).files());
        files.remove("datapackage.json");
        var results = new String(files.get("results.json"), StandardCharsets.UTF_8);
        files.put(
                "results.json",
                results.replaceFirst("\"trays\": 12", "\"trays\": 13").getBytes(StandardCharsets.UTF_8));
        Files.write(
                file,
                PackFile.bytes(new PackFile.About("0.1.0", Optional.empty(), Optional.empty(), List.of()), files));
        var run = Run.of("verify", file);
        assertEquals(1, run.status());
        assertTrue(
                run.out().contains("\n\ndiffers: the numbers of the analysis. 1 value differs: 'outcomes[0].trays'.\n"),
                run::out);
        assertTrue(run.out().endsWith("\nWhat the pack says isn't what comes of what is in it.\n"), run::out);
        assertEquals(1, Run.of("verify", file, "--json").status());
    }

    @Test
    void verifyRefusesWhatIsNoPack() throws IOException {
        var file = home.resolve("x.zip");
        assertEquals(
                file + ": found no such file; expected a pack, as pack writes one\n",
                Run.of("verify", file).err());
        Files.writeString(file, "no");
        var run = Run.of("verify", file);
        assertEquals(1, run.status());
        assertEquals(file + ": found a file that is no zip archive; expected a pack\n", run.err());
    }

    /** A title from elsewhere doesn't command this terminal. */
    @Test
    void hostileTitlesArePrintedHarmless() throws IOException {
        var folder = home.resolve("hostile");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("plan.yaml"), PLAN.replace("Größe: Cress?", "\\u202Ehcti <b>"));
        assertEquals(0, Run.of("lay", folder, "--seed", 7).status());
        for (var run : List.of(
                Run.of("pack", folder, "--to", home.resolve("x.zip")),
                Run.of("verify", home.resolve("x.zip")),
                Run.of("begin", home.resolve("again"), "--like", home.resolve("x.zip")))) {
            assertEquals("", run.err());
            assertTrue(run.out().contains("\\u202ehcti <b>"), run::out);
            assertTrue(run.out().codePoints().allMatch(c -> c == '\n' || (c >= ' ' && c < 0x2000)), run::out);
        }
    }

    @Test
    void beginLikeAPackTakesItsPlanToTheByteAndNothingElse() throws IOException {
        var mine = trial();
        var remark = new String(new byte[] {(byte) 0xef, (byte) 0xbb, (byte) 0xbf}, StandardCharsets.UTF_8) + PLAN
                + "# end\r\n";
        Files.writeString(mine.resolve("plan.yaml"), remark);
        Run.of("pack", mine, "--to", home.resolve("x.zip"));
        var other = home.resolve("other");
        var run = Run.of("begin", other, "--like", home.resolve("x.zip"));
        assertEquals("", run.err());
        assertEquals(
                "Written: " + other.resolve("plan.yaml")
                        + ", byte for byte the plan of 'Größe: Cress?', so that both trials"
                        + " have one protocol.\nThere is no layout yet: fairtray lay " + other
                        + " draws one of its own, from a seed of its own.\n",
                run.out());
        assertArrayEquals(
                Files.readAllBytes(mine.resolve("plan.yaml")), Files.readAllBytes(other.resolve("plan.yaml")));
        try (var files = Files.list(other)) {
            assertEquals(1, files.count());
        }
        assertEquals(1, Run.of("begin", other, "--like", home.resolve("x.zip")).status());
    }

    @Test
    void beginLikeAPackThatIsNotThereSaysSo() {
        var run = Run.of("begin", home.resolve("new"), "--like", home.resolve("none.zip"));
        assertEquals(1, run.status());
        assertEquals(
                home.resolve("none.zip") + ": found no such file; expected a pack, as pack writes one\n", run.err());
        assertFalse(Files.exists(home.resolve("new")));
    }
}
