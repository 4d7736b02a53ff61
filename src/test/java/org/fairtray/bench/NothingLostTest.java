package org.fairtray.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import org.fairtray.journal.Entry;
import org.fairtray.journal.Event;
import org.fairtray.journal.JournalFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What was acknowledged is there after the computer stopped or its disk was full. */
class NothingLostTest {
    private static final Clock CLOCK = Clock.system(ZoneId.systemDefault());
    private static final Path BASH = Path.of("/bin/bash");
    private static final String PLAN = BeetTrial.PLAN + """
            counting: {days: [1, 2], frames_per_tray: 1, seeds_per_frame: 50, counts: new}
            outcomes:
              - {name: germinated, kind: count, of: sown, day: 2}
            """;

    @TempDir
    Path folder;

    @BeforeEach
    void layOut() {
        BeetTrial.layOut(folder, PLAN);
    }

    private List<String> java(String run) {
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "org.fairtray.bench.EndlessCounting",
                folder.toString(),
                run);
    }

    private static Process start(List<String> command) throws IOException {
        return new ProcessBuilder(command).redirectErrorStream(true).start();
    }

    private static BufferedReader said(Process process) {
        return new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    }

    /** All but a last line that was written in part. */
    private static List<String> wholeLines(String text) {
        return text.substring(0, text.lastIndexOf('\n') + 1).lines().toList();
    }

    /** The ids of all counts that the journal has. */
    private List<String> journal() throws IOException {
        var entries = new ArrayList<Entry>();
        JournalFile.open(folder, CLOCK, entries::add).close();
        return entries.stream()
                .filter(e -> e.event() instanceof Event.Counted)
                .map(e -> ((Event.Counted) e.event()).id())
                .toList();
    }

    private void readingsFollow() throws IOException {
        try (var trials = new Trials(folder, CLOCK)) {
            var bench = trials.all().values().iterator().next().bench();
            bench.writeReadings();
            var counts = bench.counts(0);
            assertEquals(null, counts.problem());
            var readings = Files.readString(folder.resolve("readings.csv"));
            for (var cell : counts.cells()) {
                var row = cell.tray() + "," + cell.day() + "," + cell.values().get("germinated") + ",";
                assertTrue(readings.contains(row), row + " in\n" + readings);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 40, 163})
    void afterTheProgramWasKilled(int acknowledged) throws Exception {
        var out = folder.resolve("said.txt");
        var process = new ProcessBuilder(java("killed"))
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        while (process.isAlive() && Files.readAllLines(out).size() < acknowledged) {
            Thread.sleep(5);
        }
        process.destroyForcibly().waitFor();
        var kept = wholeLines(Files.readString(out));
        assertTrue(kept.size() >= acknowledged, kept.toString());
        var journal = new HashSet<>(journal());
        for (var line : kept) {
            assertTrue(line.startsWith("kept "), line);
            assertTrue(journal.contains(line.substring("kept ".length())), line);
        }
        readingsFollow();
    }

    @Test
    void afterTheDiskWasFull() throws Exception {
        assumeTrue(Files.isExecutable(BASH), "skipped: no bash here to limit the size of files with");
        var command =
                String.join(" ", java("full").stream().map(w -> "'" + w + "'").toList());
        var process = start(List.of(BASH.toString(), "-c", "ulimit -f 8; exec " + command));
        List<String> said;
        try (var reader = said(process)) {
            said = reader.lines().filter(l -> l.contains("-count-")).toList();
        }
        var last = said.get(said.size() - 1);
        assertTrue(last.startsWith("not kept "), said.toString());
        var kept = said.stream()
                .filter(l -> l.startsWith("kept "))
                .map(l -> l.substring("kept ".length()))
                .toList();
        assertTrue(kept.size() > 5, said.toString());
        assertEquals(kept, journal());
        readingsFollow();
    }
}
