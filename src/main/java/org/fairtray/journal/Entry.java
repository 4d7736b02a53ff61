package org.fairtray.journal;

import java.time.Instant;

/**
 * One line of the journal.
 *
 * @param number 1, 2, ... without a gap; this, not the clock, says what came first
 * @param time by the clock of the bench, which may jump
 */
public record Entry(long number, Instant time, Event event) {}
