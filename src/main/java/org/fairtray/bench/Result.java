package org.fairtray.bench;

/**
 * What became of a count. Unless it is refused it is on disk.
 *
 * @param status {@code kept}, {@code known} (it was kept before), {@code conflict} or {@code refused}
 * @param reason why it was refused, or with what it is in conflict; null where neither
 * @param cell what stands now; null where there is no such place to count
 */
public record Result(String id, String status, String reason, CellNow cell) {}
