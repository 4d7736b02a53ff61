package org.fairtray.archive;

import java.time.Instant;
import java.util.Optional;

/** A shared trial as the archive has it. Of a withdrawn one only id, title, crop and the numbers of its kind are left. */
public record Listed(SharedTrial trial, Instant added, Optional<Withdrawal> withdrawal) {
    /** When and why it was taken back. */
    public record Withdrawal(Instant at, String reason) {}
}
