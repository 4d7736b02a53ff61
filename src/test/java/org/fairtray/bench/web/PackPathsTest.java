package org.fairtray.bench.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import org.fairtray.packs.PackFile;
import org.fairtray.packs.PackNames;
import org.junit.jupiter.api.Test;

/** The pack that the bench gives to whoever runs it. */
class PackPathsTest extends OpenedBench {
    private static final String COUNT = """
            {"counts": [{"id": "count-%s-%s", "tray": "T0%s", "day": %s, "frame": 1, "seen": 0, "values": {"germinated": "%s"}}]}""";

    @Test
    void whileTheSealIsShutThereIsNone() throws Exception {
        var caller = in();
        for (var path : new String[] {"/api/trials/beet/pack", "/api/trials/beet/pack.zip"}) {
            assertEquals(409, caller.get(path).statusCode(), path);
        }
    }

    @Test
    void itHasTheCountsAndNotWhoMadeThem() throws Exception {
        var caller = in();
        for (int tray = 1; tray <= 6; tray++) {
            for (int day = 1; day <= 2; day++) {
                var count = COUNT.formatted(tray, day, tray, day, 10 * day + tray);
                assertEquals(200, caller.post("/api/trials/beet/counts", count).statusCode());
            }
        }
        assertEquals(200, caller.post("/api/trials/beet/open", "{}").statusCode());
        var said = caller.get("/api/trials/beet/pack").body();
        assertTrue(said.contains("readings.csv, column 'by': who counted"), said);
        var zip = caller.bytes("/api/trials/beet/pack.zip");
        assertFalse(new String(zip, StandardCharsets.ISO_8859_1).contains("Ada"), "who counted");
        var pack = PackFile.read("pack.zip", zip);
        assertEquals(12, pack.trial().readings().size());
        assertTrue(pack.has(PackNames.REPORT));
        assertEquals(
                401,
                new Caller(bench.address()).get("/api/trials/beet/pack.zip").statusCode());
    }
}
