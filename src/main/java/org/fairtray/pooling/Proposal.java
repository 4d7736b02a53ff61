package org.fairtray.pooling;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.files.Nearest;
import org.fairtray.trial.CommonNames;
import org.fairtray.trial.Numbers;

/**
 * Names that may mean the same: nearly the same letters, one the beginning of the other, or numbers within a twentieth; and
 * never both in one trial. Nothing follows from them until a grower has agreed.
 *
 * @param names those that were given, and those that may be added
 * @param reasons one sentence for each that may be added
 */
public record Proposal(CommonNames names, List<String> reasons) {
    private static final double NEAR = 0.05;

    /** Each is held against all before it, so of very many words only those that most trials use are looked at. */
    private static final int MOST = 500;

    public Proposal {
        reasons = List.copyOf(reasons);
    }

    /** What the words of some trials suggest. */
    static Proposal of(Glossary glossary) {
        var reasons = new ArrayList<String>();
        var given = glossary.names();
        var factors = new LinkedHashMap<>(given.factors());
        factors.putAll(near("factor", glossary.factors(), false, reasons));
        var outcomes = new LinkedHashMap<>(given.outcomes());
        outcomes.putAll(near("outcome", glossary.outcomes(), false, reasons));
        var conditions = new LinkedHashMap<>(given.conditions());
        conditions.putAll(near("condition", glossary.conditions(), false, reasons));
        var levels = new LinkedHashMap<>(given.levels());
        glossary.words().forEach((name, words) -> {
            var meant = near("level of " + name, words, glossary.factors().uses(name) > 0, reasons);
            if (!meant.isEmpty()) {
                var all = new LinkedHashMap<>(levels.getOrDefault(name, Map.of()));
                all.putAll(meant);
                levels.put(name, all);
            }
        });
        return new Proposal(
                new CommonNames(
                        factors, levels, outcomes, conditions, given.units(), given.unitWhereNone(), given.against()),
                reasons);
    }

    /** Each word that is near one which more trials use, or as many and before it in the alphabet. */
    private static Map<String, String> near(String what, Spellings words, boolean numbersToo, List<String> reasons) {
        var meant = new LinkedHashMap<String, String>();
        var before = new ArrayList<String>();
        for (String word : words.byUse().stream().limit(MOST).toList()) {
            var others = before.stream().filter(o -> !words.heldApart(word, o)).toList();
            var same = numbersToo || !Numbers.isNumber(word) ? nearest(word, others) : Optional.<String>empty();
            if (same.isPresent()) {
                meant.put(word, same.get());
                reasons.add("the " + what + " '" + word + "' (" + counted(words.uses(word)) + ") may be '" + same.get()
                        + "' (" + counted(words.uses(same.get())) + ")");
            } else {
                before.add(word);
            }
        }
        return meant;
    }

    private static String counted(int trials) {
        return trials + (trials == 1 ? " trial" : " trials");
    }

    private static Optional<String> nearest(String word, List<String> others) {
        if (!Numbers.isNumber(word)) {
            return Nearest.to(
                    word, others.stream().filter(o -> !Numbers.isNumber(o)).toList());
        }
        double number = Double.parseDouble(word);
        return others.stream()
                .filter(Numbers::isNumber)
                .filter(o -> number != 0 && Math.abs(Double.parseDouble(o) - number) <= NEAR * Math.abs(number))
                .findFirst();
    }
}
