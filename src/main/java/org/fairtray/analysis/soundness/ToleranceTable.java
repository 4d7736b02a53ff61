package org.fairtray.analysis.soundness;

import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;

/**
 * The greatest range allowed between four replicates of 100 seeds, in percentage points, by their mean rounded to a whole
 * per cent. Means below 51 % have the tolerance of as many per cent that did not come up: 30 % that of 71 %.
 *
 * <p>Source: U.S. Code of Federal Regulations, title 7, section 201.55; from memory the same as table 5B of the ISTA
 * Rules, after Miles (1963), Proceedings of the International Seed Testing Association 28, 525-686. Its edges are
 * rounded in a way of its own, so it is kept as it stands and not worked out.
 */
final class ToleranceTable {
    static final int REPLICATES = 4;
    static final int SEEDS = 100;

    /** By the lowest mean of each class. */
    private static final TreeMap<Integer, Integer> BY_LOWEST_MEAN = new TreeMap<>(Map.ofEntries(
            Map.entry(99, 5),
            Map.entry(98, 6),
            Map.entry(97, 7),
            Map.entry(96, 8),
            Map.entry(95, 9),
            Map.entry(93, 10),
            Map.entry(91, 11),
            Map.entry(89, 12),
            Map.entry(87, 13),
            Map.entry(84, 14),
            Map.entry(81, 15),
            Map.entry(78, 16),
            Map.entry(73, 17),
            Map.entry(67, 18),
            Map.entry(56, 19),
            Map.entry(51, 20)));

    private ToleranceTable() {}

    /**
     * The tolerance for a mean.
     *
     * @param meanPercent 0 to 100, whole
     * @return empty for 0, 1 and 100, where the table has none
     */
    static OptionalInt of(int meanPercent) {
        int upper = meanPercent <= 50 ? 101 - meanPercent : meanPercent;
        return upper > 99
                ? OptionalInt.empty()
                : OptionalInt.of(BY_LOWEST_MEAN.floorEntry(upper).getValue());
    }
}
