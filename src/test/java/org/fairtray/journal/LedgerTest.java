package org.fairtray.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class LedgerTest {
    private static final Slot SLOT = new Slot("T01", 3, 1);

    private final Ledger ledger = new Ledger();
    private long number;

    private long count(long seen, boolean settles, Map<String, String> cells) {
        number++;
        ledger.add(new Entry(
                number,
                Instant.parse("2026-03-04T12:00:00Z").plusSeconds(number),
                new Event.Counted(
                        "id" + number,
                        SLOT,
                        seen,
                        cells,
                        "by " + number,
                        Optional.empty(),
                        OptionalDouble.empty(),
                        settles)));
        return number;
    }

    private long count(long seen, String column, String value) {
        return count(seen, false, Map.of(column, value));
    }

    private String stands(String column) {
        return ledger.standing(SLOT).text(column);
    }

    private List<String> differing() {
        return ledger.conflicts().stream()
                .map(c -> c.column() + " " + c.offered().value())
                .toList();
    }

    @Test
    void aCountOfWhatWasSeenReplacesIt() {
        long first = count(0, "germinated", "12");
        count(first, "germinated", "14");
        assertEquals("14", stands("germinated"));
        assertEquals(List.of(), differing());
    }

    @Test
    void aCounterWhoHadNotSeenTheOthersFigureIsInConflictAndTheFirstStands() {
        count(0, "germinated", "12");
        count(0, "germinated", "14");
        assertEquals("12", stands("germinated"));
        assertEquals(List.of("germinated 14"), differing());
    }

    @Test
    void twoWhoAgreeAreNotInConflict() {
        count(0, "germinated", "12");
        count(0, "germinated", "12");
        assertEquals(List.of(), differing());
    }

    @Test
    void columnsOfDifferentCountersGoTogether() {
        count(0, "germinated", "12");
        count(0, "through", "3");
        assertEquals("12 3", stands("germinated") + " " + stands("through"));
        assertEquals(List.of(), differing());
    }

    @Test
    void aFigureThatACounterDidNotChangeDoesNotTouchTheOthers() {
        long first = count(0, "germinated", "12");
        count(first, "germinated", "14");
        count(first, false, Map.of("germinated", "12", "through", "3"));
        assertEquals("14 3", stands("germinated") + " " + stands("through"));
        assertEquals(List.of(), differing());
    }

    @Test
    void aFigureCanBeTakenBack() {
        long first = count(0, "germinated", "12");
        count(first, "germinated", "");
        assertEquals(Map.of(), ledger.standing(SLOT).cells());
    }

    @Test
    void onlyWhoHasSeenBothSettles() {
        count(0, "germinated", "12");
        long conflict = count(0, "germinated", "14");
        count(conflict - 1, true, Map.of("germinated", "13"));
        assertEquals("13", stands("germinated"), "it had seen the first");
        assertEquals(List.of("germinated 14"), differing(), "but not that another differs");
        count(number, true, Map.of("germinated", "14"));
        assertEquals("14", stands("germinated"));
        assertEquals(List.of(), differing());
    }

    @Test
    void settlingOnTheFirstFigureKeepsIt() {
        count(0, "germinated", "12");
        long conflict = count(0, "germinated", "14");
        count(conflict, true, Map.of("germinated", "12"));
        assertEquals("12", stands("germinated"));
        assertEquals(List.of(), differing());
    }

    @Test
    void whoCountedWhenFollowsTheFigureThatStands() {
        count(0, false, Map.of("germinated", "12", "by", "Ada"));
        count(0, false, Map.of("germinated", "14", "by", "Ben"));
        assertEquals("Ada", stands("by"));
        assertEquals(List.of("germinated 14"), differing());
    }
}
