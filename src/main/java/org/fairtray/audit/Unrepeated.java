package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.Tail;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;

/**
 * What a layout without two trays alike can tell all the same, as a fraction of all combinations does: each level is on
 * several trays, whose other factors differ evenly.
 *
 * <p>Source: Fisher (1935), The Design of Experiments, chapter 6 (hidden replication; from memory).
 */
final class Unrepeated {
    /** With more the quantile of t comes near to that of a large trial; a choice of ours. */
    private static final int FEW = 5;

    private Unrepeated() {}

    /** Sentences on what stands in for repeats and what can't be told apart; none where neither needs saying. */
    static List<String> notes(Structure structure) {
        var notes = new ArrayList<String>();
        var judged = structure.trial().factors().stream()
                .filter(f -> structure.testedIn(main(f)).isPresent())
                .toList();
        if (structure.repeatsNoTreatment() && !judged.isEmpty()) {
            notes.add("No two trays got the same, but each level of "
                    + String.join(", ", judged.stream().map(Factor::name).toList()) + " is on "
                    + several(structure, judged)
                    + " trays, which differ evenly in the rest: these stand in for repeats.");
            notes.add(degrees(structure, judged));
        }
        if (structure.isFraction()) {
            var confusions = structure.confusions();
            notes.add("The trays are a part of all "
                    + structure.trial().treatments().size() + " combinations"
                    + (confusions.isEmpty()
                            ? ", but the factors and each two of them acting together can be told apart."
                            : ".")
                    + (structure.leavesInteractionsOut()
                            ? " Each factor is judged as if no " + (structure.highestOrder() + 1) + " acted together."
                            : ""));
            notes.addAll(confusions);
        }
        return notes;
    }

    private static Term main(Factor factor) {
        return new Term(List.of(factor.name()));
    }

    private static String several(Structure structure, List<Factor> factors) {
        var numbers = new TreeSet<Integer>();
        for (Factor factor : factors) {
            for (String level : factor.levels()) {
                numbers.add((int) structure.trays().stream()
                        .map(Tray::treatment)
                        .filter(t -> level.equals(t.level(factor.name())))
                        .count());
            }
        }
        numbers.remove(0);
        return numbers.first().equals(numbers.last())
                ? "" + numbers.first()
                : numbers.first() + " to " + numbers.last();
    }

    private static String degrees(Structure structure, List<Factor> judged) {
        int fewest = judged.stream()
                .mapToInt(f -> structure.freedom(main(f)).orElseThrow())
                .min()
                .orElseThrow();
        double tail = 1 - structure.trial().choices().alpha() / 2;
        return "That leaves " + fewest + (fewest == 1 ? " degree" : " degrees") + " of freedom to judge by"
                + (fewest > FEW
                        ? "."
                        : String.format(
                                Locale.ROOT,
                                ", which is few: a difference counts only if it is %.1f times its standard error, not %.1f"
                                        + " times as in a large trial.",
                                Tail.tQuantile(tail, fewest),
                                Tail.normalQuantile(tail)));
    }
}
