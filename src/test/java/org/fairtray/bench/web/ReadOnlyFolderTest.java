package org.fairtray.bench.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.fairtray.bench.BeetTrial;
import org.fairtray.journal.JournalFile;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A trial whose folder can't be written to: shown as far as it goes, nothing lost, one sentence that says why. */
class ReadOnlyFolderTest {
    private static final String SAID =
            "readings.journal can't be written in this trial's folder, so nothing can be kept."
                    + " What is there is shown. Give the one who runs the bench leave to write there.";
    private static final String PLAN = BeetTrial.PLAN + """
            counting: {days: [1, 2], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: germinated, kind: count, of: sown, day: 2}
            """;
    private static final String COUNTS = "/api/trials/beet/counts";

    @TempDir
    Path folder;

    private final List<Throwable> defects = new ArrayList<>();
    private Path trial;

    @BeforeEach
    void layOut() {
        trial = folder.resolve("beet");
        BeetTrial.layOut(trial, PLAN);
    }

    @AfterEach
    void open() {
        mayWrite(true);
        assertEquals(List.of(), defects);
    }

    private void mayWrite(boolean may) {
        for (var file : Optional.ofNullable(trial.toFile().listFiles()).orElseThrow()) {
            file.setWritable(may);
        }
        trial.toFile().setWritable(may);
        folder.toFile().setWritable(may);
    }

    private void lock() {
        mayWrite(false);
        assumeFalse(Files.isWritable(trial), "skipped: this user may write anywhere");
    }

    private BenchServer bench() {
        return BenchServer.open(new BenchServer.Opening(
                folder, 0, false, Clock.system(ZoneId.systemDefault()), code -> {}, defects::add));
    }

    private static Caller in(BenchServer bench) throws Exception {
        var caller = new Caller(bench.address());
        assertEquals(200, caller.enter(bench.code(), "Ada").statusCode());
        return caller;
    }

    private static String count(String id, String tray, String figure) {
        return "{\"counts\": [{\"id\": \"%s\", \"tray\": \"%s\", \"day\": 1, \"frame\": 1, \"seen\": 0,"
                        .formatted(id, tray)
                + " \"values\": {\"germinated\": \"%s\"}}]}".formatted(figure);
    }

    private Map<String, Integer> everything() throws Exception {
        var all = new TreeMap<String, Integer>();
        try (var files = Files.list(trial)) {
            for (var file : files.toList()) {
                all.put(file.getFileName().toString(), Arrays.hashCode(Files.readAllBytes(file)));
            }
        }
        return all;
    }

    @Test
    void whatWasCountedIsShownAndMoreIsNotTaken() throws Exception {
        try (var bench = bench()) {
            assertTrue(in(bench)
                    .post(COUNTS, count("count-0001", "T01", "30"))
                    .body()
                    .contains("\"kept\""));
        }
        lock();
        var before = everything();
        try (var bench = bench()) {
            assertEquals(List.of("beet: " + SAID), bench.obstacles());
            var caller = in(bench);
            var shown = caller.get("/api/trials/beet/count").body();
            assertTrue(shown.contains("\"germinated\":\"30\"") && shown.contains("T06"), shown);
            for (var path : List.of("/api/trials/beet", "/api/trials/beet/count/since/0")) {
                var answer = caller.get(path);
                assertEquals(200, answer.statusCode());
                assertTrue(answer.body().contains(SAID), answer.body());
            }
            for (var path : List.of("/api/trials", "/api/trials/beet/rack", "/api/trials/beet/curves")) {
                assertEquals(200, caller.get(path).statusCode(), path);
            }
            for (var refused : List.of(
                    caller.post(COUNTS, count("count-0002", "T02", "31")),
                    caller.post("/api/trials/beet/sown", "{\"date\": \"2026-03-01\"}"),
                    caller.post("/api/trials/beet/open", "{}"))) {
                assertEquals(507, refused.statusCode());
                assertTrue(refused.body().contains(SAID), refused.body());
            }
            assertEquals(
                    400, caller.post("/api/trials/beet/sheets", "{}").statusCode(), "sheets need a folder to write in");
            assertEquals(before, everything());
            mayWrite(true);
            assertTrue(
                    caller.post(COUNTS, count("count-0002", "T02", "31")).body().contains("\"kept\""),
                    "as soon as that is mended");
            assertFalse(caller.get("/api/trials/beet/count").body().contains(SAID));
        }
    }

    @Test
    void readingsThatNoBenchEverOpenedAreShown() throws Exception {
        Files.writeString(trial.resolve("readings.csv"), "tray,day,germinated\nT03,1,22\n");
        lock();
        try (var bench = bench()) {
            var shown = in(bench).get("/api/trials/beet/count").body();
            assertTrue(shown.contains("\"germinated\":\"22\"") && shown.contains(SAID), shown);
        }
        assertFalse(Files.exists(trial.resolve("readings.journal")));
        assertFalse(JournalFile.mayWrite(trial));
    }
}
