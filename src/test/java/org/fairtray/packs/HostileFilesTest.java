package org.fairtray.packs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Sha256;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;

/** Sound archives whose files don't belong together, or are made to keep whoever reads them busy. */
class HostileFilesTest {
    private static final String DESCRIPTION = "datapackage.json";

    private static String refusal(byte[] zip) {
        return assertThrows(ProblemsException.class, () -> PackFile.read("p.zip", zip))
                .getMessage();
    }

    private static TreeMap<String, byte[]> files() {
        return new TreeMap<>(PackFile.read("sample", Sample.pack()).files());
    }

    private static String refusalWith(String name, byte[] bytes) {
        var files = files();
        files.put(name, bytes);
        return refusal(Forge.of(files).zip());
    }

    private static String refusalOf(UnaryOperator<String> description) {
        var text = new String(files().get(DESCRIPTION), StandardCharsets.UTF_8);
        assertFalse(text.equals(description.apply(text)), "the lie is not told");
        return refusalWith(DESCRIPTION, Sample.utf8(description.apply(text)));
    }

    /** A file and its hash changed together. */
    private static byte[] withHash(String name, byte[] bytes) {
        var files = files();
        var before = files.put(name, bytes);
        var text = new String(files.get(DESCRIPTION), StandardCharsets.UTF_8)
                .replace(Sha256.of(before), Sha256.of(bytes))
                .replace("\"bytes\": " + before.length + ",", "\"bytes\": " + bytes.length + ",");
        files.put(DESCRIPTION, Sample.utf8(text));
        return Forge.of(files).zip();
    }

    @Test
    void otherBytesThanWerePacked() {
        assertEquals(
                "p.zip: found 'readings.csv' with other bytes than datapackage.json says; expected the file that was packed",
                refusalWith("readings.csv", Sample.utf8("tray,day,through\n")));
        assertEquals(
                "p.zip: found 'plan.yaml' with other bytes than datapackage.json says; expected the file that was packed",
                refusalOf(t -> t.replace(
                        "\"bytes\": " + files().get("plan.yaml").length,
                        "\"bytes\": " + (files().get("plan.yaml").length + 1))));
    }

    @Test
    void filesThatAreNotListedOrNotThere() {
        assertEquals(
                "p.zip: found 'report.html', which datapackage.json doesn't list; expected only files that it lists",
                refusalWith("report.html", Sample.utf8("<p>")));
        var files = files();
        files.remove("readings.csv");
        assertEquals(
                "p.zip: found no file 'readings.csv', which datapackage.json lists; expected every file that it lists",
                refusal(Forge.of(files).zip()));
        files.remove(DESCRIPTION);
        files.remove("plan.yaml");
        assertEquals("""
                p.zip: found no datapackage.json in it; expected a pack, as pack writes one
                p.zip: found no plan.yaml in it; expected a pack, as pack writes one""", refusal(Forge.of(files).zip()));
    }

    @Test
    void listedTwiceOrBadly() {
        assertEquals(
                "p.zip: found datapackage.json with 'plan.yaml' twice; expected each file once",
                refusalOf(t -> t.replace("\"path\": \"layout.csv\"", "\"path\": \"plan.yaml\"")));
        assertEquals(
                "p.zip: found datapackage.json with an item of resources, 'plan.yaml', without path, bytes and a SHA-256 as"
                        + " hash; expected all three",
                refusalOf(t ->
                        t.replace("\"hash\": \"sha256:" + Sha256.of(files().get("plan.yaml")), "\"hash\": \"md5:12")));
        assertEquals(
                "p.zip: found datapackage.json with no list of resources; expected one item for each file",
                refusalWith(DESCRIPTION, Sample.utf8("{\"title\": \"x\", \"fairtray\": {\"version\": \"1\"}}")));
        assertEquals(
                "p.zip: found datapackage.json with no fairtray.version in it; expected what pack writes",
                refusalOf(t -> t.replace("\"version\"", "\"revision\"")));
        assertEquals(
                "p.zip: found datapackage.json with farm '\"a b\"'; expected 1 to 40 letters, digits, '.', '_', '-'",
                refusalOf(t -> t.replace("\"left_out\"", "\"farm\": \"a b\", \"left_out\"")));
        assertEquals(
                "p.zip: found datapackage.json with licenses other than one with a name; expected one licence, or no"
                        + " licenses",
                refusalOf(t -> t.replace("\"fairtray\"", "\"licenses\": [], \"fairtray\"")));
    }

    @Test
    void anotherTitleThanThePlans() {
        assertEquals(
                "p.zip: found datapackage.json with the title '\\u001b]0;x\\u0007\\u202e'; expected that of plan.yaml,"
                        + " 'Soaking and mats inside stacks, cover weight on stacks (inve…'",
                refusalOf(t ->
                        t.replaceFirst("\"title\": \"[^\"]*\"", "\"title\": \"\\\\u001b]0;x\\\\u0007\\\\u202e\"")));
    }

    @Test
    void jsonThatIsNone() {
        var expected = "; expected a data package, as pack writes it";
        var bad = java.util.Map.of(
                "",
                "text that isn't JSON",
                "[]",
                "something else than one JSON object",
                "{} {}",
                "text that isn't JSON",
                "{'a': 1}",
                "text that isn't JSON",
                "{\"a\": 1, \"a\": 2}",
                "a key twice in one object",
                "{\"a\": " + "[".repeat(100_000),
                "lists and keys more than 40 deep",
                "{\"a\": " + "1".repeat(100) + "}",
                "a number of 100 digits");
        bad.forEach((json, found) -> assertEquals(
                "p.zip: found datapackage.json with " + found + expected, refusalWith(DESCRIPTION, Sample.utf8(json))));
        assertEquals(
                "p.zip: found datapackage.json with bytes that aren't UTF-8" + expected,
                refusalWith(DESCRIPTION, new byte[] {'{', (byte) 0xff, '}'}));
        assertEquals(
                "p.zip: found 'datapackage.json' of more than 1 megabytes; expected at most so many",
                refusalWith(DESCRIPTION, new byte[(1 << 20) + 1]));
    }

    @Test
    void tablesThatAreTooLarge() {
        var many = "tray,day,through\n" + "T01,1,1\n".repeat(100_001);
        assertEquals(
                "p.zip: found readings.csv with 100002 lines; expected at most 100000",
                refusal(withHash("readings.csv", Sample.utf8(many))));
        var wide = "tray,day,through" + ",n".repeat(300) + "\n";
        assertEquals(
                "p.zip: found readings.csv with 303 columns; expected at most 300",
                refusal(withHash("readings.csv", Sample.utf8(wide))));
        var huge = "tray,day,through,note\nT01,1,1," + "x".repeat(20_000_000) + "\n";
        assertEquals(
                "p.zip: found readings.csv with 20000008 bytes in a line; expected at most 10000",
                refusal(withHash("readings.csv", Sample.utf8(huge))));
        var trays = "tray,shelf,stack,spot,soak,cover,mat\n" + "T,1,1,1,0,0,coir\n".repeat(5_001);
        assertEquals(
                "p.zip: found layout.csv with 5002 lines; expected at most 5001",
                refusal(withHash("layout.csv", Sample.utf8(trays))));
    }

    @Test
    void plansThatAskForTooMuch() {
        var plan = new String(files().get("plan.yaml"), StandardCharsets.UTF_8);
        assertEquals(
                "p.zip: found plan.yaml with 80000 places for trays; expected at most 20000",
                refusal(withHash(
                        "plan.yaml", Sample.utf8(plan.replace("name: spot, count: 4", "name: spot, count: 10000")))));
        var factors = "factors:\n" + "  - {name: f%d, levels: [a, b]}\n".repeat(10);
        var numbered = factors.formatted(1, 2, 3, 4, 5, 6, 7, 8, 9, 10);
        var files = new TreeMap<>(Sample.planAlone());
        files.put("plan.yaml", Sample.utf8(plan.replaceAll("(?s)factors:.*place:", numbered + "place:")));
        assertEquals(
                "the pack: found plan.yaml with 1024 treatments; expected at most 1000",
                assertThrows(ProblemsException.class, () -> PackFile.bytes(Sample.ABOUT, files))
                        .getMessage());
        assertEquals(
                "p.zip: found 'plan.yaml' of more than 256 kilobytes; expected at most so many",
                refusalWith("plan.yaml", Sample.utf8("#".repeat(1 << 19))));
    }

    /** What takes long for its size: thousands of trays that the layout doesn't have, each nearly one that it has. */
    @Test
    void namesThatAreNearlyRightDontKeepItBusy() {
        var layout = new StringBuilder("tray,shelf,stack,spot,soak,cover,mat\n");
        var readings = new StringBuilder("tray,day,through\n");
        for (int i = 0; i < 4_000; i++) {
            layout.append("x".repeat(80)).append(i).append(",1,1,1,0,0,coir\n");
        }
        for (int i = 0; i < 90_000; i++) {
            readings.append("y".repeat(80)).append(i).append(",1,1\n");
        }
        var files = new TreeMap<>(Sample.planAlone());
        files.put("layout.csv", Sample.utf8(layout.toString()));
        files.put("readings.csv", Sample.utf8(readings.toString()));
        Assertions.assertTimeout(
                Duration.ofSeconds(20),
                () -> assertThrows(ProblemsException.class, () -> PackFile.bytes(Sample.ABOUT, files)));
    }

    @Test
    void filesThatCannotBeReadAreToldWithTheirPlace() {
        var told = refusal(withHash("readings.csv", Sample.utf8("tray,day,through\nT01,1,2000\nT99,1,3\n")));
        assertTrue(told.startsWith("p.zip/readings.csv, line 2: found "), told);
        assertEquals(
                "p.zip/readings.csv: found bytes that aren't UTF-8; expected text",
                refusal(withHash("readings.csv", new byte[] {'t', (byte) 0xff}))
                        .replaceFirst(", line 1", "")
                        .substring(0, 64));
    }

    /** Any byte of a pack changed: it is refused with words, or it is another pack, or the byte means nothing. */
    @Test
    void damageIsNeverADefect() {
        var chance = new SplittableRandom(1);
        var sound = PackFile.read("sample", Sample.pack());
        var passed = new ArrayList<String>();
        for (int i = 0; i < 3_000; i++) {
            var zip = Sample.pack();
            int at = chance.nextInt(zip.length);
            zip[at] ^= (byte) (1 << chance.nextInt(8));
            try {
                assertEquals(sound.id(), PackFile.read("p.zip", zip).id());
                passed.add("byte " + at);
            } catch (ProblemsException e) {
                assertFalse(e.problems().isEmpty());
            }
        }
        assertTrue(passed.size() < 300, passed::toString);
    }
}
