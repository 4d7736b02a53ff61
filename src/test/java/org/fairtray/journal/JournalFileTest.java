package org.fairtray.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.files.ProblemsException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JournalFileTest {
    private static final Clock NOON = Clock.fixed(Instant.parse("2026-03-04T12:00:00Z"), ZoneOffset.UTC);
    private static final String NAME = "readings.journal";
    private static final String ODD = "\"quoted\" \\ \n 'é' \u2028 \ud83c\udf31 <b>";

    @TempDir
    Path folder;

    private List<Entry> entries(Clock clock) throws Exception {
        var read = new ArrayList<Entry>();
        JournalFile.open(folder, clock, read::add).close();
        return read;
    }

    private static Event.Counted counted(String id, String value) {
        return new Event.Counted(
                id,
                new Slot("T01", 3, 1),
                7,
                Map.of("germinated", value, "note", ODD),
                ODD,
                Optional.of("2026-03-04T11:59:00Z"),
                OptionalDouble.of(12.5),
                true);
    }

    @Test
    void everyKindOfEntryComesBackAsItWas() throws Exception {
        var events = List.<Event>of(
                new Event.Began("abc"),
                counted("a", "12"),
                new Event.Counted(
                        "b", new Slot(ODD, 0, 2), 0, Map.of(), "", Optional.empty(), OptionalDouble.empty(), false),
                new Event.Sown(LocalDate.of(2026, 3, 1), ODD),
                new Event.Opened(ODD),
                new Event.Photographed("p", "f.jpg", "T01", 2, ODD));
        List<Entry> kept;
        try (var journal = JournalFile.open(folder, NOON, e -> {})) {
            kept = journal.append(events);
        }
        assertEquals(kept, entries(NOON));
        assertEquals(
                List.of(1L, 2L, 3L, 4L, 5L, 6L),
                kept.stream().map(Entry::number).toList());
    }

    @Test
    void aLastLineCutAtAnyByteIsTakenOffAndNothingElse() throws Exception {
        try (var journal = JournalFile.open(folder, NOON, e -> {})) {
            journal.append(List.of(counted("a", "1"), counted("b", "2")));
        }
        var whole = Files.readAllBytes(folder.resolve(NAME));
        int secondLine = new String(whole, StandardCharsets.ISO_8859_1).indexOf('\n') + 1;
        for (int length = secondLine; length < whole.length; length++) {
            Files.write(folder.resolve(NAME), java.util.Arrays.copyOf(whole, length));
            assertEquals(1, entries(NOON).size(), "cut at byte " + length);
            try (var journal = JournalFile.open(folder, NOON, e -> {})) {
                assertEquals(
                        2, journal.append(List.of(counted("c", "3"))).get(0).number());
            }
            assertEquals(2, entries(NOON).size(), "after one more, cut at byte " + length);
        }
    }

    @Test
    void damageBeforeTheLastLineIsRefused() throws Exception {
        try (var journal = JournalFile.open(folder, NOON, e -> {})) {
            journal.append(List.of(counted("a", "1"), counted("b", "2"), counted("c", "3")));
        }
        var lines = Files.readAllLines(folder.resolve(NAME));
        lines.set(1, lines.get(1).replace("\"germinated\":\"2\"", "\"germinated\":\"9\""));
        Files.write(folder.resolve(NAME), lines);
        var bytes = Files.readAllBytes(folder.resolve(NAME));
        var refused = assertThrows(ProblemsException.class, () -> entries(NOON));
        assertEquals(
                "readings.journal, line 2: found a damaged line; expected the line as it was written; put a copy of the"
                        + " file back",
                refused.getMessage());
        assertEquals(
                new String(bytes, StandardCharsets.UTF_8), Files.readString(folder.resolve(NAME)), "left as it was");
    }

    @Test
    void aSecondBenchIsRefused() throws Exception {
        try (var journal = JournalFile.open(folder, NOON, e -> {})) {
            var refused = assertThrows(ProblemsException.class, () -> entries(NOON));
            assertEquals(
                    "readings.journal: found a journal that another bench has open; expected one bench for a trial; stop"
                            + " the other first",
                    refused.getMessage());
            assertEquals(1, journal.append(List.of(counted("a", "1"))).get(0).number());
        }
    }

    @Test
    void aClockThatJumpsBackChangesNoOrder() throws Exception {
        try (var journal = JournalFile.open(folder, NOON, e -> {})) {
            journal.append(List.of(counted("a", "1")));
        }
        var earlier = Clock.fixed(Instant.parse("2001-01-01T00:00:00Z"), ZoneOffset.UTC);
        try (var journal = JournalFile.open(folder, earlier, e -> {})) {
            journal.append(List.of(counted("b", "2")));
        }
        var ledger = new Ledger();
        entries(NOON).forEach(ledger::add);
        assertEquals(List.of(1L, 2L), entries(NOON).stream().map(Entry::number).toList());
        assertEquals("2", ledger.standing(new Slot("T01", 3, 1)).text("germinated"), "the later one stands");
    }
}
