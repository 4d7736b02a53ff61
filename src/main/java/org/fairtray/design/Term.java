package org.fairtray.design;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.trial.Trial;

/**
 * A main effect or an interaction.
 *
 * @param factors one or more, in the order of the plan
 */
public record Term(List<String> factors) {

    public Term {
        factors = List.copyOf(factors);
    }

    /** Its name in results and tables: the factors with " × " between. */
    public String name() {
        return String.join(" × ", factors);
    }

    /** Whether it is a single factor's. */
    public boolean isMain() {
        return factors.size() == 1;
    }

    /** Whether this term has all the factors of the other. */
    public boolean contains(Term other) {
        return factors.containsAll(other.factors);
    }

    /** The terms that an analysis of a trial fits: main effects, then interactions up to the order asked for. */
    public static List<Term> of(Trial trial) {
        return of(trial, trial.choices().interactions());
    }

    /** The same up to interactions of so many factors. */
    static List<Term> of(Trial trial, int highest) {
        List<String> names = trial.factorNames();
        var terms = new ArrayList<Term>();
        for (int order = 1; order <= Math.min(names.size(), highest); order++) {
            combinations(names, 0, order, List.of(), terms);
        }
        return List.copyOf(terms);
    }

    private static void combinations(List<String> names, int from, int more, List<String> chosen, List<Term> found) {
        if (more == 0) {
            found.add(new Term(chosen));
            return;
        }
        for (int i = from; i <= names.size() - more; i++) {
            var longer = new ArrayList<>(chosen);
            longer.add(names.get(i));
            combinations(names, i + 1, more - 1, longer, found);
        }
    }
}
