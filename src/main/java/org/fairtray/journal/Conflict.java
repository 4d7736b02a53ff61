package org.fairtray.journal;

/**
 * Two people gave different figures, and neither had seen the other's. What was first stands until someone settles it.
 *
 * @param number of the entry that differs
 * @param offered the figure that doesn't stand
 */
public record Conflict(long number, Slot slot, String column, Held offered) {}
