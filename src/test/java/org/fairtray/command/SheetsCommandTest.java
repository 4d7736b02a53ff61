package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sheets of a layout that is there already. */
class SheetsCommandTest {
    @TempDir
    private Path home;

    private Path trial;

    @BeforeEach
    void lay() {
        trial = home.resolve("mine");
        Run.of("begin", trial);
        assertEquals(Fairtray.DONE, Run.of("lay", trial, "--seed", 7).status());
    }

    private byte[] bytes(String name) throws IOException {
        return Files.readAllBytes(trial.resolve(name));
    }

    @Test
    void aLayoutMadeByHandGetsTheSheetsThatLayGivesIt() throws IOException {
        var sheets = bytes("sheets.pdf");
        var key = bytes("key.pdf");
        for (var name : new String[] {"seal.json", "sheets.pdf", "key.pdf"}) {
            Files.delete(trial.resolve(name));
        }
        var run = Run.of("sheets", trial, "--json");
        assertEquals("", run.err());
        assertEquals("[\"sheets.pdf\",\"key.pdf\"]", run.json().get("files").toString());
        assertEquals(12, run.json().get("trays").getAsInt());
        assertArrayEquals(sheets, bytes("sheets.pdf"));
        assertArrayEquals(key, bytes("key.pdf"));
        assertFalse(Files.exists(trial.resolve("seal.json")));
    }

    @Test
    void sheetsThatAreThereAreReplacedOnlyOnRequest() throws IOException {
        var before = bytes("sheets.pdf");
        var refused = Run.of("sheets", trial, "--paper", "letter");
        assertEquals(Fairtray.PROBLEM, refused.status());
        assertEquals("""
                sheets.pdf: found it already there; expected no such file yet; --replace replaces it
                key.pdf: found it already there; expected no such file yet; --replace replaces it
                """, refused.err());
        assertArrayEquals(before, bytes("sheets.pdf"));
        var layout = bytes("layout.csv");
        var replaced = Run.of("sheets", trial, "--paper", "letter", "--replace");
        assertEquals(Fairtray.DONE, replaced.status());
        assertTrue(replaced.out().startsWith("Written: sheets.pdf, key.pdf.\nIn sheets.pdf are Rack map: page 1; "));
        assertFalse(java.util.Arrays.equals(before, bytes("sheets.pdf")));
        assertArrayEquals(layout, bytes("layout.csv"));
    }

    @Test
    void withoutALayoutThereIsNothingToPrint() throws IOException {
        Files.delete(trial.resolve("layout.csv"));
        Files.delete(trial.resolve("seal.json"));
        var run = Run.of("sheets", trial, "--replace");
        assertEquals(Fairtray.PROBLEM, run.status());
        assertEquals("layout.csv: found no such file; expected the layout; lay draws one\n", run.err());
    }

    @Test
    void wrongOptionsAreSaid() {
        var paper = Run.of("lay", trial, "--replace", "--paper", "a5");
        assertEquals(Fairtray.USAGE, paper.status());
        assertTrue(
                paper.err().startsWith("Invalid value for option '--paper': found 'a5'; expected one of a4, letter"),
                paper.err());
        for (var wrong : new String[] {"bench", "ftp://bench", "http://", "http://bench/?a=1", "http://a b"}) {
            var address = Run.of("lay", trial, "--replace", "--address", wrong);
            assertEquals(Fairtray.USAGE, address.status());
            assertTrue(
                    address.err()
                            .startsWith("Invalid value for option '--address': found '" + wrong
                                    + "'; expected an address such as http://192.168.1.20:8080"),
                    address.err());
        }
    }
}
