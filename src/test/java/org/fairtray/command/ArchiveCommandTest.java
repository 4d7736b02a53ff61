package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.fairtray.network.SamplePacks;
import org.fairtray.packs.PackFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From packs to an archive and back. */
class ArchiveCommandTest {
    private static final String ABOUT =
            "cress, 32 trays, not sealed; soak (h): 0, 8; cover (kg): 0, 3; mat: hemp, coir; from farm-7";

    @TempDir
    private Path home;

    private Path archive() {
        return home.resolve("network.db");
    }

    private String pack(String title) throws IOException {
        var bytes = SamplePacks.titled(title);
        Files.createDirectories(home.resolve("packs"));
        Files.write(home.resolve("packs/" + title + ".zip"), bytes);
        return PackFile.read("x", bytes).id();
    }

    @Test
    void packsAreAddedListedAndWrittenOutAgain() throws IOException {
        var first = pack("First");
        var second = pack("Second");
        var added = Run.of("archive", "add", archive(), home.resolve("packs"));
        assertEquals(new Run(Fairtray.DONE, "Added: 2. There already: 0.\n", ""), added);
        assertEquals(
                "Added: 0. There already: 2.\n",
                Run.of("archive", "add", archive(), home.resolve("packs")).out());
        var today = LocalDate.now(ZoneOffset.UTC);
        assertEquals(
                first.substring(0, 12) + "  " + today + "  First\n"
                        + "              " + ABOUT + "\n"
                        + second.substring(0, 12) + "  " + today + "  Second\n"
                        + "              " + ABOUT + "\n"
                        + "2 trials.\n",
                Run.of("archive", "list", archive()).out());
        assertEquals(
                "No such trial is there.\n",
                Run.of("archive", "list", archive(), "--word", "third").out());
        var all = home.resolve("all");
        assertEquals(
                "Written to " + all + ": 2 packs.\n",
                Run.of("archive", "export", archive(), "--all", "--to", all).out());
        assertEquals(
                "Written to " + all + ": 0 packs. There already: 1 pack.\n",
                Run.of("archive", "export", archive(), second.substring(0, 8), "--to", all)
                        .out());
        assertArrayEquals(
                SamplePacks.titled("Second"), Files.readAllBytes(all.resolve(second.substring(0, 12) + ".zip")));
    }

    @Test
    void theListIsOneObjectForPrograms() throws IOException {
        var id = pack("First");
        pack("Second");
        Run.of("archive", "add", archive(), home.resolve("packs"));
        var trials = Run.of("archive", "list", archive(), "--json", "--medium", "jute", "--crop", "cress")
                .json()
                .getAsJsonArray("trials");
        assertEquals(0, trials.size());
        trials = Run.of("archive", "list", archive(), "--json").json().getAsJsonArray("trials");
        assertEquals(2, trials.size());
        var first = trials.get(0).getAsJsonObject();
        assertEquals(id, first.get("id").getAsString());
        assertEquals("First", first.get("title").getAsString());
        assertEquals("farm-7", first.get("farm").getAsString());
        assertTrue(first.get("withdrawn").isJsonNull());
    }

    @Test
    void aTrialIsTakenBack() throws IOException {
        var id = pack("First");
        var beginning = id.substring(0, 12);
        Run.of("archive", "add", archive(), home.resolve("packs"));
        assertEquals(
                new Run(
                        Fairtray.DONE,
                        "Withdrawn: " + beginning + ", 'First'. Its pack and what it brought to pooling are deleted.\n",
                        ""),
                Run.of("archive", "withdraw", archive(), beginning, "--reason", "the scale was wrong"));
        var today = LocalDate.now(ZoneOffset.UTC);
        assertEquals(
                "No such trial is there.\n",
                Run.of("archive", "list", archive()).out());
        assertEquals(
                beginning + "  " + today + "  First\n              withdrawn " + today
                        + ": the scale was wrong\n1 trial.\n",
                Run.of("archive", "list", archive(), "--withdrawn").out());
        assertEquals(
                "Added: 0. There already: 0. Withdrawn before, and not added: 1 (--bring-back adds them).\n",
                Run.of("archive", "add", archive(), home.resolve("packs")).out());
        assertEquals(
                "Added: 1. There already: 0.\n",
                Run.of("archive", "add", archive(), home.resolve("packs"), "--bring-back")
                        .out());
    }

    @Test
    void aBadPackIsToldOfAndTheOthersAreAdded() throws IOException {
        pack("First");
        var bad = Files.writeString(home.resolve("packs/bad.zip"), "tray,day\n");
        var run = Run.of("archive", "add", archive(), home.resolve("packs"));
        assertEquals(Fairtray.PROBLEM, run.status());
        assertEquals("Added: 1. There already: 0. Refused: 1.\n", run.out());
        assertTrue(run.err().startsWith(bad + ": found "), run.err());
    }

    @Test
    void filesOfOthersAreNotReplaced() throws IOException {
        var id = pack("First");
        Run.of("archive", "add", archive(), home.resolve("packs"));
        var other = home.resolve(id.substring(0, 12) + ".zip");
        Files.writeString(other, "mine");
        var run = Run.of("archive", "export", archive(), id, "--to", home);
        assertEquals(Fairtray.PROBLEM, run.status());
        assertEquals(other + ": found another file of this name; expected a new folder\n", run.err());
        assertEquals("mine", Files.readString(other));
    }

    @Test
    void wrongCommandLinesAreToldOf() {
        assertEquals(
                "say what is to be done: add, list, export, withdraw, site",
                Run.of("archive").complaints()[0]);
        assertEquals(
                "say which: the ID of one trial, or --all",
                Run.of("archive", "export", archive(), "--to", home).complaints()[0]);
        assertEquals(
                "--reason is empty: say why",
                Run.of("archive", "withdraw", archive(), "abcdef", "--reason", " ")
                        .complaints()[0]);
        assertEquals(
                archive() + ": found no archive there; expected one that fairtray archive add has made",
                Run.of("archive", "list", archive()).complaints()[0]);
        assertFalse(Files.exists(archive()));
    }
}
