package org.fairtray.analysis;

import java.util.Locale;
import java.util.Optional;
import org.fairtray.findings.Words;

/** What the components of a factor's trend say, in plain words. What isn't shown is never called absent. */
final class TrendSentences {
    private static final String LUCK =
            " Units treated alike happened to differ less than seeds alone would make them, and"
                    + " that luck is not counted on.";

    private final NumericLevels levels;
    private final Words.Differences words;
    private final double alpha;

    TrendSentences(NumericLevels levels, boolean rates, double alpha) {
        this.levels = levels;
        this.words = rates ? Words.OF_RATES : Words.OF_MEASURES;
        this.alpha = alpha;
    }

    String of(TrendComponent component) {
        if (component.degree() == 1) {
            return line(component);
        }
        if (component.heldP().isEmpty()) {
            return "Whether " + name() + " has a " + component.name()
                    + " component can't be told: nothing is left to hold it against.";
        }
        String sureness = Words.p(component.p());
        boolean shown = component.heldP().get() <= alpha;
        String luck = luck(component.p(), shown);
        if (component.degree() == 2) {
            return (shown ? bend(component, sureness) : "No bend of " + name() + " is shown (" + sureness + ").")
                    + luck;
        }
        String further = "further bend of " + name();
        return (shown
                        ? "A " + further + " is shown (" + component.name() + ", " + sureness + ")."
                        : "No " + further + " is shown (" + component.name() + ", " + sureness + ").")
                + luck;
    }

    private String line(TrendComponent component) {
        String change = words.change(2 * component.contrast().value()) + " at "
                + level(levels.names().size() - 1) + " than at " + level(0);
        if (component.heldP().isEmpty()) {
            return "Along the straight line through the levels of " + name() + ": " + change
                    + "; how sure that is can't be told, because nothing is left to hold it against.";
        }
        boolean shown = component.heldP().get() <= alpha;
        String interval = " (" + Math.round(100 * (1 - alpha)) + " % interval "
                + words.range(
                        2 * component.scaledEnd(-1, alpha).orElseThrow(),
                        2 * component.scaledEnd(1, alpha).orElseThrow())
                + "; " + Words.p(component.p()) + ").";
        return (shown
                        ? capital() + " has a straight-line trend: "
                        : "No straight-line trend of " + name() + " is shown: ")
                + "along the line, " + change + interval + luck(component.p(), shown);
    }

    private String bend(TrendComponent component, String sureness) {
        boolean down = component.contrast().value() < 0;
        return "The levels of " + name() + " don't lie on a straight line: the middle ones lie "
                + (down ? "above" : "below") + " it (" + sureness + ")."
                + (down ? "" : " Such a curve has a lowest point and no best level between its ends.");
    }

    /** @param held the p that the claim rests on */
    String lackOfFit(Optional<Double> p, Optional<Double> held) {
        if (p.isEmpty() || held.isEmpty()) {
            return "Whether a curve with one bend is enough for " + name()
                    + " can't be told: nothing is left to hold the rest against.";
        }
        boolean shown = held.get() <= alpha;
        String sureness = " (lack of fit, " + Words.p(p.get()) + ").";
        return (shown
                        ? "A curve with one bend is not enough for " + name() + sureness
                        : "Nothing beyond a curve with one bend is shown for " + name() + sureness)
                + luck(p.get(), shown);
    }

    private String luck(double p, boolean shown) {
        return p <= alpha && !shown ? LUCK : "";
    }

    private String name() {
        return levels.factor().name();
    }

    private String capital() {
        return name().substring(0, 1).toUpperCase(Locale.ROOT) + name().substring(1);
    }

    private String level(int number) {
        return levels.factor().describe(levels.names().get(number));
    }
}
