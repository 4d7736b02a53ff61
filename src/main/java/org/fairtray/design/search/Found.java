package org.fairtray.design.search;

import java.util.OptionalDouble;

/**
 * The best layout that a search found.
 *
 * @param given the candidate of every unit
 * @param efficiency the mean variance of the columns of interest in a layout of as many units without blocks, every
 *     candidate equally often, divided by that of this layout; for one factor the average efficiency factor. 0 where some
 *     column can't be told.
 * @param bound a number that no layout's efficiency exceeds, where one is known
 */
public record Found(int[] given, double efficiency, OptionalDouble bound) {}
