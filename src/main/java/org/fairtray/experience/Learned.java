package org.fairtray.experience;

import org.fairtray.statistics.Interval;

/**
 * A figure taken from a trial.
 *
 * @param value the best guess
 * @param likely where it lies with 95 %; the guess itself need not lie inside where it was cut at 0
 */
public record Learned(double value, Interval likely) {}
