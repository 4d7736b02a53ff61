package org.fairtray.bench.planning;

import java.util.Optional;
import org.fairtray.findings.Words;
import org.fairtray.sizing.ClosedForm;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;

/**
 * What a plan would see of a factor, by the closed formulae.
 *
 * @param power the chance to see the change that is worthwhile; null where it can't be worked out
 * @param smallest the smallest change that is seen as often as is wanted; null where none is
 * @param worthwhile the change that is worth seeing; null where nothing is reckoned with one
 * @param wanted the chance that is wanted
 * @param sentence all of it in words, or why it can't be told
 */
public record Power(String factor, Double power, Double smallest, Double worthwhile, double wanted, String sentence) {
    private static final double NEARLY_ALL = 0.95;
    private static final double HARDLY_ANY = 0.05;

    /** What is left of a whole number of points by rounding. */
    private static final double ROUNDING = 1e-9;

    static Power of(String factor, SizedLayout sized, Sizing sizing) {
        var closed = sizing.closedForm().stream()
                .filter(c -> c.term().equals(factor))
                .findFirst();
        var power = Advice.finite(closed.map(ClosedForm::power));
        var smallest = Advice.finite(closed.map(ClosedForm::smallestChange));
        var worthwhile = sizing.assumptions().stream()
                .filter(a -> a.key().equals("worthwhile"))
                .map(a -> a.value())
                .findFirst()
                .orElse(null);
        var sentence = power == null
                ? why(factor, sizing)
                : "Would see a change of " + Words.points(worthwhile) + " in " + trials(power) + ". "
                        + smallest(Optional.ofNullable(smallest), sizing.wanted())
                        + sized.assumptions().guess().map(g -> " " + g).orElse("");
        return new Power(factor, power, smallest, worthwhile, sizing.wanted(), sentence);
    }

    private static String why(String factor, Sizing sizing) {
        return sizing.notes().stream()
                .filter(n -> n.startsWith("Nothing can test " + factor + ":"))
                .findFirst()
                .or(() -> sizing.notes().stream().findFirst())
                .orElse("Not worked out.");
    }

    /** How often, such as "about 8 of 10 trials". */
    private static String trials(double chance) {
        if (chance >= NEARLY_ALL) {
            return "nearly all trials";
        }
        return chance < HARDLY_ANY
                ? "hardly any trial"
                : "about " + Math.max(1, Math.round(10 * chance)) + " of 10 trials";
    }

    private static String smallest(Optional<Double> smallest, double wanted) {
        String often = "in " + Words.percent(wanted) + " of trials";
        return smallest.map(s -> "The smallest change that it sees " + often + ": "
                        + Words.points(Math.ceil(100 * s - ROUNDING) / 100) + ".")
                .orElse("There is no change so large that it would see it " + often + ".");
    }
}
