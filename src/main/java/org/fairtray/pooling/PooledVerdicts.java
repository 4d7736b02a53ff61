package org.fairtray.pooling;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.fairtray.findings.Pooled;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Interval;

/**
 * One answer for a factor. It is "changed" where a level's mean over trials differs from 0 by the careful test, adjusted for
 * the factor's other levels; "no worthwhile change" where every level's interval lies within what is worth acting on; else
 * "cannot tell". One trial alone is no pool.
 */
final class PooledVerdicts {
    private final List<Pooled.Effect> effects;
    private final OptionalDouble worthwhile;
    private final double alpha;
    private final Words.Differences words;

    /**
     * @param effects of one factor on one outcome, one or more
     * @param worthwhile as a difference of rates; of a measure it says nothing
     */
    PooledVerdicts(List<Pooled.Effect> effects, OptionalDouble worthwhile, double alpha) {
        this.effects = effects;
        this.worthwhile = first().of() == null ? OptionalDouble.empty() : worthwhile;
        this.alpha = alpha;
        this.words = first().of() == null ? Words.OF_MEASURES : Words.OF_RATES;
    }

    private Pooled.Effect first() {
        return effects.get(0);
    }

    Pooled.Verdict verdict() {
        var several = effects.stream().filter(e -> e.trials() > 1).toList();
        if (several.isEmpty()) {
            return verdict(
                    "cannot tell",
                    "Only one trial tells of " + first().factor() + ", which is no pool: see its own"
                            + " report. Seen there: " + said(effects) + ".");
        }
        if (several.size() == effects.size() && effects.stream().allMatch(this::withinWorthwhile)) {
            return verdict(
                    "no worthwhile change",
                    capital(first().factor()) + " made no worthwhile change to " + first().outcome() + " on average: "
                            + said(effects) + ". A difference below " + Words.points(worthwhile.getAsDouble())
                            + " was said not to matter." + elsewhere(several));
        }
        var clear = several.stream()
                .filter(e -> e.pAdjusted() != null && e.pAdjusted() <= alpha)
                .toList();
        if (!clear.isEmpty()) {
            var open = effects.stream().filter(e -> !clear.contains(e)).toList();
            return verdict(
                    "changed",
                    capital(first().factor()) + " changed " + first().outcome() + ": " + said(clear) + "."
                            + (open.isEmpty() ? "" : " Not clear: " + said(open) + ".") + elsewhere(clear));
        }
        boolean both = several.stream().anyMatch(e -> e.differenceLow() < 0 && e.differenceHigh() > 0);
        return verdict(
                "cannot tell",
                "We cannot tell whether " + first().factor() + " changed " + first().outcome() + ": " + said(effects)
                        + "." + (both ? " A rise and a fall are both still possible." : ""));
    }

    private Pooled.Verdict verdict(String word, String sentence) {
        return new Pooled.Verdict(first().factor(), first().outcome(), word, sentence);
    }

    private boolean withinWorthwhile(Pooled.Effect e) {
        return worthwhile.isPresent()
                && new Interval(e.differenceLow(), e.differenceHigh()).inside(worthwhile.getAsDouble());
    }

    private String said(List<Pooled.Effect> some) {
        return some.stream().map(this::said).collect(Collectors.joining("; "));
    }

    private String said(Pooled.Effect e) {
        String rates = e.of() == null
                ? ""
                : Words.percent(e.rate()) + " with " + level(e, e.level()) + " against "
                        + Words.percent(e.againstRate()) + " with " + level(e, e.against()) + ", ";
        String pair = e.of() == null ? level(e, e.level()) + " against " + level(e, e.against()) + ", " : "";
        return rates + pair + words.change(e.difference()) + " (" + Math.round(100 * (1 - alpha)) + " % interval "
                + words.range(e.differenceLow(), e.differenceHigh())
                + (e.pAdjusted() == null ? "" : "; " + Words.p(e.pAdjusted())) + "; " + e.trials()
                + (e.trials() == 1 ? " trial)" : " trials)");
    }

    /** What another farm may see, where trials differ so much that the mean alone would mislead. */
    private String elsewhere(List<Pooled.Effect> some) {
        var wide = some.stream()
                .filter(e -> e.tau2() != null && e.tau2() > 0 && e.differencePredictionLow() != null)
                .map(e -> level(e, e.level()) + " may bring "
                        + words.range(e.differencePredictionLow(), e.differencePredictionHigh()))
                .collect(Collectors.joining("; "));
        return wide.isEmpty() ? "" : " Farms differ: on another one like these " + wide + ".";
    }

    private static String level(Pooled.Effect e, String level) {
        return e.unit() == null ? e.factor() + " " + level : level + " " + e.unit();
    }

    private static String capital(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
