package org.fairtray.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** A file of readings that someone saved beside the journal. */
class EditsTest {
    private static final Slot ONE = new Slot("T01", 1, 1);
    private static final Slot TWO = new Slot("T02", 1, 1);
    private static final Slot THREE = new Slot("T03", 1, 1);

    private final Ledger ledger = new Ledger();
    private long number;

    private void add(Event event) {
        ledger.add(new Entry(++number, Instant.parse("2026-03-04T12:00:00Z"), event));
    }

    private void count(Slot slot, String value) {
        add(new Event.Counted(
                "id" + number,
                slot,
                number,
                Map.of("germinated", value),
                "Ada",
                Optional.empty(),
                OptionalDouble.empty(),
                false));
    }

    private void saved(Map<Slot, String> figures) {
        var cells = new HashMap<Slot, Map<String, String>>();
        figures.forEach((slot, value) -> cells.put(slot, Map.of("germinated", value)));
        Edits.of(ledger, cells, "file").forEach(this::add);
    }

    private String stands(Slot slot) {
        return ledger.standing(slot).text("germinated");
    }

    private List<String> differing() {
        return ledger.conflicts().stream()
                .map(c -> c.slot().tray() + " " + c.offered().value())
                .toList();
    }

    @Test
    void aFileFromBeforeTheJournalIsTakenIn() {
        saved(Map.of(ONE, "5", TWO, "6"));
        assertEquals("5 6", stands(ONE) + " " + stands(TWO));
    }

    @Test
    void theFileAsItWasWrittenHasNoEdits() {
        count(ONE, "5");
        count(TWO, "6");
        var cells = Map.of(ONE, Map.of("germinated", "5"), TWO, Map.of("germinated", "6"));
        assertEquals(List.of(), Edits.of(ledger, cells, "file"));
    }

    @Test
    void aChangedFigureIsTaken() {
        count(ONE, "5");
        count(TWO, "6");
        saved(Map.of(ONE, "5", TWO, "8"));
        assertEquals("5 8", stands(ONE) + " " + stands(TWO));
        assertEquals(List.of(), differing());
    }

    @Test
    void aFigureTakenOutIsTakenBack() {
        count(ONE, "5");
        count(TWO, "6");
        count(THREE, "7");
        saved(Map.of(ONE, "5", THREE, "7"));
        assertEquals("5  7", stands(ONE) + " " + stands(TWO) + " " + stands(THREE));
    }

    @Test
    void aStaleFileWithAnEditLosesNoNewerCount() {
        count(ONE, "5");
        count(TWO, "6");
        count(THREE, "7");
        saved(Map.of(ONE, "4", TWO, "6"));
        assertEquals("4 6 7", stands(ONE) + " " + stands(TWO) + " " + stands(THREE));
        assertEquals(List.of(), differing());
    }

    @Test
    void anOlderFigureInTheFileIsShownAgainstTheNewerAndDoesNotReplaceIt() {
        count(ONE, "5");
        count(TWO, "6");
        count(ONE, "9");
        saved(Map.of(ONE, "5", TWO, "6"));
        assertEquals("9", stands(ONE));
        assertEquals(List.of("T01 5"), differing());
    }

    @Test
    void anEditOfTheNewestFigureIsTaken() {
        count(ONE, "5");
        count(TWO, "6");
        count(ONE, "9");
        saved(Map.of(ONE, "4", TWO, "6"));
        assertEquals("4", stands(ONE));
        assertEquals(List.of(), differing());
    }

    @Test
    void anEditOfAFigureThatWasCountedMeanwhileIsAConflict() {
        count(ONE, "5");
        count(TWO, "6");
        count(THREE, "7");
        count(ONE, "9");
        saved(Map.of(ONE, "4", TWO, "6"));
        assertEquals("9 6 7", stands(ONE) + " " + stands(TWO) + " " + stands(THREE));
        assertEquals(List.of("T01 4"), differing());
    }
}
