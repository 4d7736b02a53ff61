package org.fairtray.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import java.util.stream.IntStream;

/**
 * How the randomisation of a layout is run again for one term: the choice of its {@link Arrangements}.
 *
 * <ul>
 *   <li>A factor over rows and columns that cross is drawn anew as the plan draws it.
 *   <li>Any other factor's levels are exchanged among those of its units that lie in the same units of all coarser strata
 *       and hold the same levels of all other factors.
 *   <li>Levels that come in batches are exchanged among whole batches, where these hold the same levels of all others.
 *   <li>Where that leaves so few that p could never come to alpha, and for interactions, what the model without the term
 *       leaves over is exchanged among the units of the stratum, within those of the coarser strata; where these cross,
 *       within those that hold them.
 * </ul>
 *
 * <p>Of all these only arrangements count that keep the plan's restrictions, as far as the layout itself does.
 *
 * <p>Sources: Edgington and Onghena (2007), Randomization Tests, 4th ed.; Freedman and Lane (1983), A nonstochastic
 * interpretation of reported significance levels, Journal of Business and Economic Statistics 1, 292-298.
 */
public final class Rerandomisation {
    private final Structure structure;
    private final Term term;
    private final int stratum;
    private final StratumUnits units;

    private Rerandomisation(Structure structure, Term term, int stratum) {
        this.structure = structure;
        this.term = term;
        this.stratum = stratum;
        this.units = new StratumUnits(structure, stratum);
    }

    /**
     * What chance could have done instead.
     *
     * @param term one that is tested somewhere
     * @throws IllegalArgumentException if no stratum can test it
     */
    public static Arrangements of(Structure structure, Term term) {
        int stratum = structure
                .testedIn(term)
                .orElseThrow(() -> new IllegalArgumentException(
                        term.name() + " is tested in no stratum: expected a term that is"));
        return new Rerandomisation(structure, term, stratum).chosen();
    }

    private Arrangements chosen() {
        Optional<Arrangements> redraw = Redraw.of(structure, term, stratum).map(this::kept);
        if (redraw.filter(this::enough).isPresent()) {
            return redraw.get();
        }
        Optional<Arrangements> exchange = exchange().map(e -> kept(e, own()));
        if (exchange.filter(this::enough).isPresent()) {
            return exchange.get();
        }
        var residuals = kept(
                residuals(),
                IntStream.range(0, structure.trial().factors().size()).toArray());
        return exchange.filter(e -> e.smallestShare() <= residuals.smallestShare())
                .orElse(residuals);
    }

    private int[] own() {
        return new int[] {structure.trial().factorNames().indexOf(term.factors().get(0))};
    }

    private Supplier<Bench> bench() {
        var kept = Restrictions.kept(structure.trial(), structure.trays());
        return () -> new Bench(structure.trial(), structure.trays(), kept);
    }

    /** Those alone that keep the restrictions which the layout keeps. */
    private Arrangements kept(Exchange exchange, int[] factors) {
        var again = bench();
        var actual = again.get();
        if (!actual.isRestricted()) {
            return exchange;
        }
        int[][] stands = units.stands(actual);
        boolean oneSize = IntStream.range(0, stands.length).allMatch(u -> stands[u].length == stands[0].length);
        return factors.length == 1 || oneSize
                ? new Kept(exchange, new Kept.Units(actual, again, factors, stands, exchange.groups()))
                : exchange;
    }

    private Arrangements kept(Redraw redraw) {
        var again = bench();
        var actual = again.get();
        int[] order = redraw.groups().stream().flatMapToInt(IntStream::of).toArray();
        return actual.isRestricted()
                ? new Kept(redraw, new Kept.Crossed(again, own()[0], units.stands(actual), redraw.step(), order))
                : redraw;
    }

    private boolean enough(Arrangements arrangements) {
        return arrangements.smallestShare() <= structure.trial().choices().alpha();
    }

    /** The levels of one factor exchanged; empty where the layout doesn't give its units one level each. */
    private Optional<Exchange> exchange() {
        String factor = term.factors().get(0);
        String level = structure.trial().appliedLevel(structure.trial().factor(factor));
        boolean possible = term.isMain()
                && structure.strata().isEven(stratum)
                && (units.areUnitsOf(level) || areBatchesOf(factor))
                && units.haveOne(factor);
        if (!possible) {
            return Optional.empty();
        }
        var outside = units.outside();
        var group = groups(outside, u -> units.contents(u, others(factor)));
        var label = IntStream.range(0, units.count())
                .mapToObj(u -> units.level(u, factor))
                .toList();
        return Optional.of(new Exchange(
                Arrangements.Scheme.PERMUTED,
                "the levels of " + factor + " were exchanged among " + units.words() + units.withinWords(outside)
                        + sameOthers(factor, level),
                true,
                group,
                label,
                renamings(factor, group)));
    }

    private boolean areBatchesOf(String factor) {
        String name = structure.strataNames().get(stratum);
        return structure.batchesOf(factor).filter(b -> b.name().equals(name)).isPresent();
    }

    private List<String> others(String factor) {
        return structure.trial().factorNames().stream()
                .filter(f -> !f.equals(factor))
                .toList();
    }

    private String sameOthers(String factor, String level) {
        var trial = structure.trial();
        var same = others(factor).stream()
                .filter(f -> trial.appliedLevel(trial.factor(f)).equals(level))
                .toList();
        return same.isEmpty() ? "" : " with the same " + String.join(" and the same ", same);
    }

    private Exchange residuals() {
        var nested = units.nestedOutside();
        boolean orderly = structure.strata().isEven(stratum)
                && nested.size() == units.outside().size();
        var group = units.within(nested);
        var label = IntStream.range(0, units.count())
                .mapToObj(u ->
                        orderly ? units.contents(u, structure.trial().factorNames()) : List.of(Integer.toString(u)))
                .toList();
        return new Exchange(
                Arrangements.Scheme.RESIDUALS,
                "what the model without " + term.name() + " leaves over was exchanged among " + units.words()
                        + units.withinWords(nested) + " (Freedman and Lane 1983)",
                orderly && sameSizes(group),
                group,
                label,
                orderly ? renamings(nested) : 1);
    }

    private boolean sameSizes(List<?> group) {
        Map<Object, Integer> sizes = new HashMap<>();
        return IntStream.range(0, units.count()).allMatch(u -> {
            int size = units.trays(u).size();
            var known = sizes.putIfAbsent(group.get(u), size);
            return known == null || known == size;
        });
    }

    private double renamings(List<Integer> nested) {
        double product = 1;
        for (String factor : term.factors()) {
            product *= units.haveOne(factor)
                    ? renamings(factor, groups(nested, u -> units.contents(u, others(factor))))
                    : 1;
        }
        return product;
    }

    /** In how many ways levels can change names among themselves: those that are equally often in every group. */
    private double renamings(String factor, List<?> groups) {
        Map<String, Map<Object, Integer>> numbers = new HashMap<>();
        for (int u = 0; u < units.count(); u++) {
            numbers.computeIfAbsent(units.level(u, factor), l -> new HashMap<>())
                    .merge(groups.get(u), 1, Integer::sum);
        }
        Map<Map<Object, Integer>, Integer> same = new HashMap<>();
        double product = 1;
        for (var number : numbers.values()) {
            product *= same.merge(number, 1, Integer::sum);
        }
        return product;
    }

    private List<List<Object>> groups(List<Integer> strata, IntFunction<List<String>> also) {
        var within = units.within(strata);
        var groups = new ArrayList<List<Object>>();
        for (int u = 0; u < units.count(); u++) {
            groups.add(List.of(within.get(u), also.apply(u)));
        }
        return groups;
    }
}
