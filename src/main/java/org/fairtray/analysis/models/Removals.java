package org.fairtray.analysis.models;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.fairtray.design.Term;

/**
 * Fits of the same data by models of different terms, each made once: of all terms, and for each term of every term that
 * doesn't contain it, with and without it. The test of a term compares the latter two, which respects marginality.
 *
 * <p>Source: Nelder (1977), Journal of the Royal Statistical Society A 140, 48-77.
 *
 * @param <F> what a fit is
 */
public final class Removals<F> {
    private final List<Term> terms;
    private final Function<List<Term>, F> fitting;
    private final Map<List<Term>, F> made = new HashMap<>();

    /**
     * @param terms all of them
     * @param fitting makes the fit of some of them, given in the order of all
     */
    public Removals(List<Term> terms, Function<List<Term>, F> fitting) {
        this.terms = terms;
        this.fitting = fitting;
    }

    /** The fit of all terms. */
    public F all() {
        return of(terms);
    }

    /** The fit of every term that doesn't contain a term. */
    public F without(Term term) {
        return of(terms.stream().filter(t -> !t.contains(term)).toList());
    }

    /** The same with the term. */
    public F with(Term term) {
        return of(
                terms.stream().filter(t -> t.equals(term) || !t.contains(term)).toList());
    }

    /** The fit of some terms, given in the order of all. */
    F of(List<Term> some) {
        var known = made.get(some);
        if (known == null) {
            known = fitting.apply(some);
            made.put(some, known);
        }
        return known;
    }
}
