package org.fairtray.journal;

import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Something that happened at the bench. */
public sealed interface Event {

    /**
     * The journal was begun for a layout.
     *
     * @param layoutSha256 SHA-256 of layout.csv, hexadecimal
     */
    record Began(String layoutSha256) implements Event {}

    /**
     * Someone counted, took a count back, or settled two counts that differed.
     *
     * @param id made by whoever counted; the same id twice is the same count
     * @param seen the number of the newest entry about this slot that the counter had in view; 0 for none
     * @param cells what was written, by column of the readings; empty text takes a figure back
     * @param by who counted
     * @param saidAt when, by the clock of the counter's own phone
     * @param seconds how long it took
     * @param settles whether this decides between figures that differ
     */
    record Counted(
            String id,
            Slot slot,
            long seen,
            Map<String, String> cells,
            String by,
            Optional<String> saidAt,
            OptionalDouble seconds,
            boolean settles)
            implements Event {
        public Counted {
            cells = Collections.unmodifiableMap(new LinkedHashMap<>(cells));
        }
    }

    /** Someone said on which day the trays were sown. */
    record Sown(LocalDate date, String by) implements Event {}

    /** Someone opened the seal: from here on they may know which tray got what. */
    record Opened(String by) implements Event {}

    /**
     * A photo was stored.
     *
     * @param id made by whoever took it; the same id twice is the same photo
     * @param file its name in the folder of photos
     */
    record Photographed(String id, String file, String tray, int day, String by) implements Event {}
}
