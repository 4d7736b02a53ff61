package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.fairtray.pooling.contribution.Shared;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A network's whole way: trials are packed, put into an archive, pooled from there, and shown as a site. */
class PoolCommandTest {
    private static final String HOSTILE = "<script>alert(1)</script> & \u202e\"quoted\"";

    @TempDir
    private static Path temp;

    @BeforeAll
    static void network() throws IOException {
        for (int i = 1; i <= 4; i++) {
            var folder = Files.createDirectories(temp.resolve("trial" + i));
            var factor = i == 4 ? "soaking" : "soak";
            var plan = """
                    format: 1
                    trial: %s
                    crop: {name: %s}
                    factors: [{name: %s, unit: h, levels: [0, 8]}]
                    place: [{name: shelf, count: 3}, {name: spot, count: 4}]
                    counting: {days: [5], frames_per_tray: 2, seeds_per_frame: 50}
                    outcomes: [{name: through, kind: count, of: sown, day: 5}]
                    expect: {control_rate: 0.35, worthwhile: 0.1, tray_correlation: 0.01}
                    """.formatted(
                            i == 3 ? "'" + HOSTILE.replace("\u202e", "") + "'" : "Trial " + i,
                            i == 2 ? "beet" : "cress",
                            factor);
            for (var file :
                    Shared.bytes(plan, i, Map.of(factor + "=8", 0.8), -0.4).entrySet()) {
                Files.write(folder.resolve(file.getKey()), file.getValue());
            }
            var pack = Run.of("pack", folder, "--to", packs().resolve("p" + i + ".zip"), "--farm", "farm" + i);
            assertEquals(0, pack.status(), pack.err());
        }
        var added = Run.of("archive", "add", archive(), packs());
        assertEquals(0, added.status(), added.err());
    }

    private static Path packs() throws IOException {
        return Files.createDirectories(temp.resolve("packs"));
    }

    private static Path archive() {
        return temp.resolve("network.db");
    }

    private Path target(String name) {
        return temp.resolve(name);
    }

    @Test
    void foldersPacksAndAnArchiveGiveTheSame() throws IOException {
        var fromPacks = Run.of("pool", packs(), "--json", "--no-report").json();
        var fromArchive = Run.of("pool", archive(), "--json", "--no-report").json();
        var fromFolders = Run.of(
                        "pool",
                        temp.resolve("trial1"),
                        temp.resolve("trial2"),
                        temp.resolve("trial3"),
                        temp.resolve("trial4"),
                        "--json",
                        "--no-report")
                .json();
        assertEquals(4, fromPacks.get("trials").getAsInt());
        assertEquals(fromPacks.get("verdicts"), fromArchive.get("verdicts"));
        assertEquals(fromPacks.get("effects"), fromArchive.get("effects"));
        for (String key : new String[] {"estimate", "standard_error", "low", "high", "p", "tau2", "i2", "q"}) {
            assertEquals(effect(fromPacks, key), effect(fromFolders, key), key);
        }
        assertEquals(
                "reml, hartung-knapp",
                fromPacks
                        .getAsJsonArray("effects")
                        .get(0)
                        .getAsJsonObject()
                        .get("method")
                        .getAsString());
    }

    private static double effect(JsonObject pooled, String key) {
        return pooled.getAsJsonArray("effects")
                .get(0)
                .getAsJsonObject()
                .get(key)
                .getAsDouble();
    }

    @Test
    void writesAReportThatNeedsNoScript() throws IOException {
        var report = target("pooled.html");
        var run = Run.of("pool", packs(), "--report", report);
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().startsWith("4 trials of 4 farms, 48 trays."), run.out());
        assertTrue(run.out().contains("  changed: Soak changed through: "), run.out());
        var html = Files.readString(report);
        assertTrue(html.contains("What 4 trials showed together"));
        assertFalse(html.contains("<script"));
        assertTrue(html.contains("&lt;script"), "a hostile title is text");
        assertTrue(html.contains("Two ways of pooling"));
        var again = Run.of("pool", packs(), "--report", report);
        assertEquals(1, again.status());
        assertTrue(
                again.err().contains("found it already there; expected no such file yet; --replace replaces it"),
                again.err());
    }

    @Test
    void proposesNamesAndTakesThemOnlyWhenTold() throws IOException {
        var names = target("names.yaml");
        var proposed = Run.of("pool", packs(), "--propose", names);
        assertEquals(0, proposed.status(), proposed.err());
        assertTrue(
                proposed.out().contains("May be the same: the factor 'soaking' (1 trial) may be 'soak' (3 trials)."),
                proposed.out());
        assertTrue(Files.readString(names).contains("factors: {soaking: soak}"), Files.readString(names));
        var without = Run.of("pool", packs(), "--json", "--no-report").json();
        assertEquals(2, without.getAsJsonArray("effects").size());
        assertTrue(without.get("notes").toString().contains("Not taken as the same: the factor 'soaking'"));
        var with = Run.of("pool", packs(), "--names", names, "--json", "--no-report")
                .json();
        assertEquals(1, with.getAsJsonArray("effects").size());
        assertEquals(
                4,
                with.getAsJsonArray("effects")
                        .get(0)
                        .getAsJsonObject()
                        .get("trials")
                        .getAsInt());
    }

    @Test
    void aWrongFileOfNamesIsRefusedWithItsLine() throws IOException {
        var names = Files.writeString(target("wrong.yaml"), "format: 1\nfactor: {soaking: soak}\nunits: [h]\n");
        var run = Run.of("pool", packs(), "--names", names);
        assertEquals(1, run.status());
        assertEquals(
                List.of(
                        names
                                + ", line 2: found unknown key 'factor'; expected one of format, factors, levels, outcomes,"
                                + " conditions, units, unit_where_none, against; nearest: factors",
                        names + ", line 3: found a list for units; expected keys with values, 'key: value'"),
                run.err().lines().toList());
    }

    @Test
    void unsealedTrialsAreLeftOutUnlessTakenDespite() throws IOException {
        var folder = Files.createDirectories(temp.resolve("unsealed"));
        for (String file : new String[] {"plan.yaml", "layout.csv", "readings.csv"}) {
            Files.copy(temp.resolve("trial1").resolve(file), folder.resolve(file));
        }
        var run = Run.of("pool", folder, temp.resolve("trial2"), "--no-report");
        assertTrue(run.out().contains("1 trial of 1 farm, 12 trays."), run.out());
        assertTrue(
                run.out()
                        .contains(
                                "  Trial 1, soak: not randomised: Nothing shows that chance decided which tray got what"),
                run.out());
        var despite =
                Run.of("pool", folder, temp.resolve("trial2"), "--despite", "not randomised", "--json", "--no-report");
        assertEquals(2, despite.json().get("trials").getAsInt());
        var unknown = Run.of("pool", folder, "--despite", "unsealed");
        assertEquals(2, unknown.status());
        assertTrue(
                unknown.err().contains("--despite 'unsealed': expected one of confounded, no replication"),
                unknown.err());
    }

    @Test
    void searchesInAnArchive() {
        assertEquals(
                1,
                Run.of("pool", archive(), "--crop", "beet", "--json", "--no-report")
                        .json()
                        .get("trials")
                        .getAsInt());
        var run = Run.of("pool", temp.resolve("trial1"), "--crop", "beet");
        assertEquals(2, run.status());
        assertTrue(run.err().contains("look in an archive only"), run.err());
    }

    @Test
    void aFileThatIsNoPackIsRefused() throws IOException {
        var file = Files.writeString(target("notes.txt"), "no pack");
        var run = Run.of("pool", file);
        assertEquals(1, run.status());
        assertTrue(run.err().startsWith(file.toString()), run.err());
    }

    @Test
    void everythingWrongIsSaidAtOnceWithTheTrialsFolder() throws IOException {
        var one = Files.createDirectories(temp.resolve("wrong1"));
        var other = Files.createDirectories(temp.resolve("wrong2"));
        Files.writeString(one.resolve("plan.yaml"), "format: 2\n");
        Files.copy(temp.resolve("trial1").resolve("plan.yaml"), other.resolve("plan.yaml"));
        var run = Run.of("pool", one, other);
        assertEquals(1, run.status());
        assertTrue(run.err().contains(one + "/plan.yaml, line 1: found format '2'; expected 1"), run.err());
        assertTrue(
                run.err().contains(other + ": found a trial without a layout; expected one that was laid out and read"),
                run.err());
        Files.delete(other.resolve("plan.yaml"));
    }

    @Test
    void sizesWithWhatTheArchiveShows() {
        var run = Run.of("size", temp.resolve("trial1"), "--from", archive(), "--simulations", "0");
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().contains("3 trials of " + archive()), run.out());
        var none = Run.of("size", temp.resolve("trial1"), "--from", temp.resolve("packs"));
        assertEquals(1, none.status());
    }

    @Test
    void writesASiteWithoutScripts() throws IOException {
        var web = target("web");
        var first =
                Run.of("archive", "site", archive(), web, "--title", "River growers", "--at", "https://example.org/t");
        assertEquals(0, first.status(), first.err());
        assertTrue(first.out().startsWith("4 trials, 4 with a report (4 made now), "), first.out());
        var index = Files.readString(web.resolve("index.html"));
        assertTrue(index.contains("<a href=\"crop-beet.html\"><bdi>beet</bdi></a> (1)"), index);
        assertTrue(Files.readString(web.resolve("crop-beet.html")).contains("Trial 2"));
        assertFalse(Files.readString(web.resolve("crop-beet.html")).contains("Trial 1<"));
        try (Stream<Path> files = Files.walk(web)) {
            for (Path page : files.filter(f -> f.toString().endsWith(".html")).toList()) {
                var html = Files.readString(page);
                assertFalse(html.contains("<script"), page.toString());
                assertTrue(html.contains("default-src 'none'"), page.toString());
            }
        }
        var feed = Files.readString(web.resolve("feed.xml"));
        assertTrue(feed.contains("href=\"https://example.org/t/trials/"), feed);
        assertTrue(feed.contains("&lt;script&gt;"), feed);
        // What is there is kept; what is withdrawn goes.
        var id = Run.of("archive", "list", archive(), "--crop", "beet", "--json")
                .json()
                .getAsJsonArray("trials")
                .get(0)
                .getAsJsonObject()
                .get("id")
                .getAsString();
        var copy = Files.copy(archive(), target("copy.db"));
        assertEquals(
                "counted wrongly",
                Run.of("archive", "withdraw", copy, id, "--reason", "counted wrongly", "--json")
                        .json()
                        .get("reason")
                        .getAsString());
        var again = Run.of("archive", "add", copy, packs(), "--json").json();
        assertEquals(3, again.get("there").getAsInt());
        assertEquals(1, again.get("withdrawn").getAsInt());
        var exported = Run.of("archive", "export", copy, "--all", "--to", target("out"), "--json")
                .json();
        assertEquals(3, exported.get("written").getAsInt());
        var second = Run.of("archive", "site", copy, web);
        assertTrue(second.out().startsWith("3 trials, 3 with a report (0 made now), "), second.out());
        assertFalse(Files.exists(web.resolve("trials").resolve(id.substring(0, 16))));
    }
}
