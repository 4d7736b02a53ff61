package org.fairtray.design;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * How good a layout is that had to be searched for, because full sets don't fit.
 *
 * @param of what the number is about: a factor, several, or their main effects
 * @param efficiency the mean variance of a comparison in as many units all alike, divided by that in this layout, by what
 *     differs within the blocks alone (average efficiency factor)
 * @param best a number that no layout's efficiency exceeds, where one is known
 * @param confused what can't be told apart, a sentence each
 */
public record Quality(String of, double efficiency, OptionalDouble best, List<String> confused) {

    /** The efficiency and what is best, in a sentence, and what can't be told apart. */
    public List<String> describe() {
        var sentences = new ArrayList<String>();
        sentences.add("Full sets don't fit, so a layout was searched for. For " + of + " it tells "
                + percent(efficiency) + " of what as many places all alike would tell; "
                + best.stream()
                        .mapToObj(b -> "no layout here can tell more than " + percent(b) + ".")
                        .findFirst()
                        .orElse("the best possible is not known."));
        sentences.addAll(confused);
        return List.copyOf(sentences);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }
}
