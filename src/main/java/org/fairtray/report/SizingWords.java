package org.fairtray.report;

import java.util.List;
import java.util.Locale;
import org.fairtray.findings.Words;
import org.fairtray.sizing.Assumption;
import org.fairtray.sizing.Sizing;

/** What text and page say of a trial's sizes in the same words. */
final class SizingWords {
    static final String NONE = "-";

    static final String INTERACTION =
            "An interaction is taken to be this: only the trays with the last level of all its factors have the higher rate.";

    /** What is left of a whole number of points by rounding. */
    private static final double ROUNDING = 1e-9;

    private final Sizing sizing;

    SizingWords(Sizing sizing) {
        this.sizing = sizing;
    }

    /** A probability; none is certain. */
    static String chance(Double p) {
        if (p == null) {
            return NONE;
        }
        return p >= 0.995 ? "> 99 %" : p < 0.005 ? "< 1 %" : Math.round(100 * p) + " %";
    }

    /** The next whole point: a little less would not be found as often. */
    static String points(Double difference) {
        return difference == null ? NONE : Words.points(Math.ceil(100 * difference - ROUNDING) / 100);
    }

    static String number(double value) {
        return String.format(Locale.ROOT, "%.4f", value).replaceAll("\\.?0+$", "");
    }

    /** A number that was taken for granted. */
    double assumed(String key) {
        return sizing.assumptions().stream()
                .filter(a -> a.key().equals(key))
                .mapToDouble(Assumption::value)
                .findFirst()
                .orElseThrow();
    }

    /** The difference that is worth finding. */
    String worthwhile() {
        return Words.points(assumed("worthwhile"));
    }

    /** What the advice doesn't say already. */
    List<String> notes() {
        return sizing.notes().stream().filter(n -> !sizing.advice().contains(n)).toList();
    }

    /** Units that a level has, on average, to three digits. */
    static String units(Sizing.Needed needed) {
        return Words.measure(needed.unitsPerLevel()).replaceAll("\\.0+$", "");
    }

    /** What a factor needs: units for a level, trays in all, whether the place holds them. */
    static List<String> needs(Sizing.Needed needed) {
        return List.of(
                needed.neededPerLevel() == null
                        ? "> 50 times"
                        : needed.neededPerLevel().toString(),
                needed.trays() == null ? NONE : needed.trays().toString(),
                needed.fits() == null ? NONE : needed.fits() ? "yes" : "no");
    }

    /** A simulated power and the interval that it lies in, in %; to stands between its ends. */
    String simulated(String term, String by, String to) {
        return sizing.terms().stream()
                .filter(t -> t.term().equals(term) && t.by().equals(by) && t.power() != null)
                .findFirst()
                .map(t -> chance(t.power())
                        + (t.low() == null
                                ? ""
                                : String.format(Locale.ROOT, " (%.0f%s%.0f)", 100 * t.low(), to, 100 * t.high())))
                .orElse(NONE);
    }

    /** What was reckoned with, and where to find better. */
    String correlation() {
        return "Reckoned with here is " + number(assumed("tray_correlation"))
                + ". No published figure for trays in stacks is known: take it from your first trial.";
    }

    /** For the same money, where most is learned; empty where more seeds always tell more. */
    String bestSeeds() {
        var best = sizing.spending().bestSeeds();
        return best == null
                ? ""
                : "For the same money most is learned with about " + Math.round(best)
                        + " seeds counted in a tray; beyond that, spend on trays.";
    }
}
