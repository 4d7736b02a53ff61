package org.fairtray.bench.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.fairtray.bench.BeetTrial;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;

/** A bench with one trial, opened anew for each test of what is asked of it; no test may meet a fault of the program. */
abstract class OpenedBench {
    /** The plan of its trial. */
    static final String PLAN = BeetTrial.PLAN + """
            counting: {days: [1, 2], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: germinated, kind: count, of: sown, day: 2}
            """;

    @TempDir
    Path folder;

    BenchServer bench;
    final List<Throwable> defects = new ArrayList<>();
    final List<String> codes = new ArrayList<>();

    @BeforeEach
    void open() {
        BeetTrial.layOut(folder.resolve("beet"), PLAN);
        start();
    }

    void start() {
        bench = BenchServer.open(new BenchServer.Opening(
                folder, 0, false, Clock.system(ZoneId.systemDefault()), codes::add, defects::add));
    }

    @AfterEach
    void close() {
        bench.close();
        assertEquals(List.of(), defects);
    }

    /** Someone who is let in. */
    Caller in() throws Exception {
        var caller = new Caller(bench.address());
        assertEquals(200, caller.enter(bench.code(), "Ada").statusCode());
        return caller;
    }
}
