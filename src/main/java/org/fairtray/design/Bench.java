package org.fairtray.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.trial.Place;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * What every stand of a place gets, by factor, and how much of that breaks what is asked. Stands are numbered in walking
 * order. A factor given to larger units has its level at all stands of a unit, trays or not.
 */
final class Bench {
    private final Trial trial;
    private final List<Stand> stands;
    private final Map<List<Integer>, Integer> numbers = new HashMap<>();
    private final int[][] levels;
    /** Whose treatment each stand has, where whole treatments are exchanged. */
    private final int[] origin;

    private final List<Restriction> restrictions;
    private final List<Limit> limits = new ArrayList<>();

    /** A restraint and the factors whose levels together are its labels. */
    private record Limit(Restraint restraint, int[] factors) {}

    /**
     * Trays as they stand.
     *
     * @param restrictions those of the plan that are looked at
     */
    Bench(Trial trial, List<Tray> trays, List<Restriction> restrictions) {
        this.trial = trial;
        this.stands = trial.place().stands();
        for (int s = 0; s < stands.size(); s++) {
            numbers.put(stands.get(s).at(), s);
        }
        this.origin = IntStream.range(0, stands.size()).toArray();
        this.levels = new int[trial.factors().size()][stands.size()];
        fill(trays);
        this.restrictions = List.copyOf(restrictions);
        restrictions.forEach(this::limit);
    }

    private void fill(List<Tray> trays) {
        for (int f = 0; f < levels.length; f++) {
            Arrays.fill(levels[f], Restraint.NOTHING);
            var factor = trial.factors().get(f);
            var key = trial.place().key(trial.appliedLevel(factor));
            var byUnit = new HashMap<List<Integer>, Integer>();
            trays.forEach(t -> byUnit.put(
                    Units.of(key, t.stand().at()),
                    factor.levels().indexOf(t.treatment().level(factor.name()))));
            for (int s = 0; s < stands.size(); s++) {
                levels[f][s] = byUnit.getOrDefault(Units.of(key, stands.get(s).at()), Restraint.NOTHING);
            }
        }
    }

    private void limit(Restriction restriction) {
        int[] factors = factors(restriction);
        var units = new RestrictedUnits(trial.place(), level(trial, restriction));
        switch (restriction.kind()) {
            case APART -> limit(new Apart(units.beside()), factors);
            case EVEN ->
                limit(
                        EvenNumbers.ofEachLabel(
                                units.all(),
                                units.numbers(restriction.over().orElseThrow()),
                                labels(factors),
                                most(factors)),
                        factors);
            case EDGES -> limit(EvenNumbers.ofLabels(units.edges(), labels(factors), most(factors)), factors);
        }
    }

    /** Adds what the structure of the place asks, which counts like a restriction. */
    void limit(Restraint restraint, int[] factors) {
        int[] labels = labels(factors);
        for (int s = 0; s < labels.length; s++) {
            restraint.set(s, labels[s]);
        }
        limits.add(new Limit(restraint, factors));
    }

    /** The place level whose units a restriction is about. */
    static String level(Trial trial, Restriction restriction) {
        return trial.factors().stream()
                .filter(f -> f.name().equals(restriction.of()))
                .findFirst()
                .map(trial::appliedLevel)
                .orElse(Place.TRAY);
    }

    private int[] factors(Restriction restriction) {
        int one = trial.factorNames().indexOf(restriction.of());
        return one < 0 ? IntStream.range(0, levels.length).toArray() : new int[] {one};
    }

    /** The number of the stand with these place numbers. */
    int number(List<Integer> at) {
        return numbers.get(at);
    }

    List<Stand> stands() {
        return stands;
    }

    /** The level that a stand gets of a factor, or {@link Restraint#NOTHING}. */
    int level(int factor, int stand) {
        return levels[factor][stand];
    }

    /** How many labels some factors make. */
    int most(int[] factors) {
        return IntStream.of(factors)
                .map(f -> trial.factors().get(f).levels().size())
                .reduce(1, Math::multiplyExact);
    }

    /** The levels of some factors together, as one number for each stand. */
    int[] labels(int[] factors) {
        return IntStream.range(0, stands.size()).map(s -> label(factors, s)).toArray();
    }

    private int label(int[] factors, int stand) {
        int label = 0;
        for (int f : factors) {
            if (levels[f][stand] == Restraint.NOTHING) {
                return Restraint.NOTHING;
            }
            label = label * trial.factors().get(f).levels().size() + levels[f][stand];
        }
        return label;
    }

    private Treatment treatment(int[] factors, int label) {
        var names = new LinkedHashMap<String, String>();
        int rest = label;
        for (int i = factors.length - 1; i >= 0; i--) {
            var factor = trial.factors().get(factors[i]);
            names.put(factor.name(), factor.levels().get(rest % factor.levels().size()));
            rest /= factor.levels().size();
        }
        return new Treatment(names).only(trial.factorNames());
    }

    /**
     * Two units exchange what they get.
     *
     * @param factors of which they exchange the levels
     * @param one the stands of one
     * @param other those of the other, as many; or of another number, where all stands of a unit get the same
     */
    void exchange(int[] factors, int[] one, int[] other) {
        for (int f : factors) {
            swap(levels[f], one, other);
        }
        if (factors.length == levels.length) {
            swap(origin, one, other);
        }
        update(one);
        update(other);
    }

    private static void swap(int[] level, int[] one, int[] other) {
        int[] kept = new int[one.length];
        for (int i = 0; i < one.length; i++) {
            kept[i] = level[one[i]];
        }
        for (int i = 0; i < one.length; i++) {
            level[one[i]] = level[other[Math.min(i, other.length - 1)]];
        }
        for (int i = 0; i < other.length; i++) {
            level[other[i]] = kept[Math.min(i, kept.length - 1)];
        }
    }

    /** The stand from which came what a stand has, where whole treatments were exchanged. */
    int origin(int stand) {
        return origin[stand];
    }

    /**
     * A unit gets what another has on another bench.
     *
     * @param factors of which it gets the levels
     */
    void take(int[] factors, int[] unit, Bench from, int[] other) {
        for (int f : factors) {
            for (int i = 0; i < unit.length; i++) {
                levels[f][unit[i]] = from.levels[f][other[Math.min(i, other.length - 1)]];
            }
        }
        update(unit);
    }

    /** Some stands get a level of a factor. */
    void give(int factor, int[] unit, int level) {
        for (int s : unit) {
            levels[factor][s] = level;
        }
        update(unit);
    }

    private void update(int[] unit) {
        for (Limit limit : limits) {
            for (int s : unit) {
                int label = label(limit.factors, s);
                if (label != limit.restraint.label(s)) {
                    limit.restraint.set(s, label);
                }
            }
        }
    }

    /** Whether a tray stands there: a stand has a level of each factor. */
    boolean holdsTray(int stand) {
        return IntStream.range(0, levels.length).noneMatch(f -> levels[f][stand] == Restraint.NOTHING);
    }

    /** Whether anything is asked. */
    boolean isRestricted() {
        return !restrictions.isEmpty();
    }

    /** How much is amiss; 0 where all is kept. */
    long breaches() {
        long breaches = 0;
        for (Limit limit : limits) {
            breaches += limit.restraint.breaches();
        }
        return breaches;
    }

    /** What a restriction has amiss, in words, within a sentence; empty where it is kept. */
    Optional<String> amiss(Restriction restriction) {
        var limit = limits.get(restrictions.indexOf(restriction));
        return limit.restraint.breaches() == 0
                ? Optional.empty()
                : Optional.of(limit.restraint.amiss(
                        label -> treatment(limit.factors, label).describe()));
    }

    /** What every stand gets that has a level of each factor, in walking order. */
    List<Tray> trays() {
        int[] all = IntStream.range(0, levels.length).toArray();
        return IntStream.range(0, stands.size())
                .filter(s -> label(all, s) != Restraint.NOTHING)
                .mapToObj(s -> new Tray("", stands.get(s), Map.of(), treatment(all, label(all, s))))
                .toList();
    }
}
