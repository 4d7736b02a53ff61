package org.fairtray.design;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.design.search.Found;
import org.fairtray.design.search.Problem;
import org.fairtray.design.search.Search;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * A step whose units don't hold full sets, as a problem to search. Blocks are all levels outside its units; of interest are
 * the terms of its factors, with those of outer factors where units have got theirs, and their main effects alone where
 * there is no room for more.
 */
final class SearchedStep {
    private static final Treatment NOTHING = new Treatment(Map.of());

    private final Trial trial;
    private final Step step;
    private final List<List<Integer>> units;
    private final List<Treatment> outer;
    private final List<Treatment> candidates;
    private final List<Term> terms;
    private final Problem problem;

    /**
     * A step with the units to be used.
     *
     * @param outer what every unit gets from those it lies in
     */
    SearchedStep(Trial trial, Step step, List<List<Integer>> units, List<Treatment> outer) {
        this.trial = trial;
        this.step = step;
        this.units = List.copyOf(units);
        this.outer = List.copyOf(outer);
        this.candidates = trial.treatments(step.factors());
        this.terms = terms();
        var all = problem(true);
        this.problem = Search.isPossible(all) ? all : problem(false);
    }

    /** The units used: all, or where the plan asks for fewer trays as many in every block as can be. */
    static List<List<Integer>> used(Trial trial, Step step) {
        var all = Units.all(trial.place(), trial.place().key(step.level()));
        int wanted = trial.replicates().isPresent()
                ? trial.replicates().getAsInt()
                        * step.treatments(trial, NOTHING).size()
                : all.size();
        if (wanted >= all.size() || step.within().isEmpty()) {
            return all.subList(0, Math.min(wanted, all.size()));
        }
        var turns = new HashMap<List<Integer>, Integer>();
        var turn = new HashMap<List<Integer>, Integer>();
        all.forEach(u -> turn.put(u, turns.merge(part(trial, step, step.within().get(0), u), 1, Integer::sum)));
        var order = new ArrayList<>(all);
        order.sort((a, b) -> turn.get(a) - turn.get(b));
        var used = new ArrayList<>(all);
        used.retainAll(order.subList(0, wanted));
        return used;
    }

    private static List<Integer> part(Trial trial, Step step, String level, List<Integer> unit) {
        return Units.part(trial.place().key(step.level()), trial.place().key(level), unit);
    }

    /** Whether the place has room for a search at all, whatever the units around get. */
    static boolean isPossible(Trial trial, Step step) {
        var units = used(trial, step);
        var one = new SearchedStep(trial, step, units, Collections.nCopies(units.size(), NOTHING));
        int spare = Search.comparisons(one.problem.units(), one.problem.blocks()) - one.problem.ofInterest().length;
        return Search.isPossible(one.problem) && (spare > 0 || step.factors().size() > 1);
    }

    /** What a layout gives: what each unit gets, in their order. */
    List<Treatment> treatments(Found found) {
        return IntStream.of(found.given()).mapToObj(candidates::get).toList();
    }

    Found search(UniformRandomProvider random, Consumer<Double> progress) {
        return Search.best(problem, numbers -> Generator.shuffle(numbers, random), progress);
    }

    /** How good a layout that was found is. */
    Quality quality(Found found) {
        var factors = step.factors().stream().map(f -> f.name()).toList();
        boolean fraction = found.given().length < candidates.size() && factors.size() > 1;
        return new Quality(
                ofInterest(),
                found.efficiency(),
                found.bound(),
                fraction ? Confusion.sentences(trial, factors, treatments(found)) : List.of());
    }

    private String ofInterest() {
        return problem.ofInterest().length == problem.columns()
                        || step.factors().size() == 1
                ? step.what()
                : "the main effects of " + step.what();
    }

    private Problem problem(boolean interactions) {
        var kinds = new ArrayList<>(outer.stream().distinct().toList());
        int[] kind = outer.stream().mapToInt(kinds::indexOf).toArray();
        var rows = new double[kinds.size()][candidates.size()][];
        for (int k = 0; k < kinds.size(); k++) {
            for (int c = 0; c < candidates.size(); c++) {
                var treatment = kinds.get(k).with(candidates.get(c));
                rows[k][c] = trial.made(treatment) ? row(treatment) : null;
            }
        }
        return new Problem(
                blocks(), together(kinds.size()), kind, rows, prior(interactions), units.size() < candidates.size());
    }

    /** Main effects first, then interactions that some unit can tell about. */
    private List<Term> terms() {
        var known = Stream.concat(
                        outer.get(0).levels().keySet().stream(),
                        step.factors().stream().map(f -> f.name()))
                .toList();
        var own = step.factors().stream().map(f -> f.name()).toList();
        return Term.of(trial).stream()
                .filter(t -> known.containsAll(t.factors()) && !Collections.disjoint(t.factors(), own))
                .toList();
    }

    private double[] row(Treatment treatment) {
        return terms.stream()
                .flatMapToDouble(t -> DoubleStream.of(Contrasts.row(trial, t, treatment)))
                .toArray();
    }

    /** Interactions there is no room for count as known a hundred times as well as all units together could tell of one. */
    private double[] prior(boolean interactions) {
        return terms.stream()
                .flatMapToDouble(t -> DoubleStream.generate(() -> t.isMain() || interactions ? 0 : 100.0 * units.size())
                        .limit(Contrasts.number(trial, t)))
                .toArray();
    }

    private List<int[]> blocks() {
        var place = trial.place();
        return place.names().stream()
                .filter(l -> place.contains(l, step.level()) && !trial.moves(l) && place.units(l) > 1)
                .map(this::groups)
                .toList();
    }

    private int[] groups(String level) {
        Map<List<Integer>, Integer> numbers = new LinkedHashMap<>();
        return units.stream()
                .mapToInt(u -> numbers.computeIfAbsent(part(trial, step, level, u), p -> numbers.size()))
                .toArray();
    }

    /** The smallest groups that hold full sets, or all units where none does. */
    private int[] together(int kinds) {
        var best = new int[units.size()];
        int most = 1;
        for (int[] block : blocks()) {
            var sizes = new HashMap<Integer, Integer>();
            IntStream.of(block).forEach(b -> sizes.merge(b, 1, Integer::sum));
            if (kinds == 1
                    && sizes.size() > most
                    && sizes.values().stream().allMatch(s -> s % candidates.size() == 0)) {
                best = block;
                most = sizes.size();
            }
        }
        return best;
    }
}
