package org.fairtray.journal;

import java.time.Instant;

/**
 * A figure, and who gave it.
 *
 * @param value as text; empty where it was taken back
 * @param number of the entry that gave it
 */
public record Held(String value, long number, String by, Instant time) {}
