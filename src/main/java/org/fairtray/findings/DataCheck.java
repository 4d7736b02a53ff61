package org.fairtray.findings;

import java.util.List;

/**
 * One look at whether the data are sound.
 *
 * @param kind replicates, outlying tray, place trend, neighbours, dispersion or counters
 * @param sound whether nothing stands out
 * @param trays codes of the trays it speaks of
 * @param statistic what was worked out; null where it could not be
 * @param value of that
 * @param p null where it has none
 * @param sentence what was found, in plain words
 * @param remedy what to do about it; empty where sound
 */
public record DataCheck(
        String kind,
        boolean sound,
        List<String> trays,
        String statistic,
        Double value,
        Double p,
        String sentence,
        String remedy) {

    /** Nothing stands out. */
    public static DataCheck sound(String kind, String statistic, Double value, Double p, String sentence) {
        return new DataCheck(kind, true, List.of(), statistic, value, p, sentence, "");
    }

    /** It could not be looked at; the sentence says why. */
    public static DataCheck notMade(String kind, String sentence) {
        return new DataCheck(kind, true, List.of(), null, null, null, sentence, "");
    }
}
