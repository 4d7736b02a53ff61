package org.fairtray.design;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;

/** The units of a stratum: where each lies and what its trays get. */
final class StratumUnits {
    private final Structure structure;
    private final int stratum;
    private final Grouping units;
    private final List<List<Tray>> trays = new ArrayList<>();

    StratumUnits(Structure structure, int stratum) {
        this.structure = structure;
        this.stratum = stratum;
        this.units = structure.strata().grouping(stratum);
        IntStream.range(0, units.groups()).forEach(u -> trays.add(new ArrayList<>()));
        int[] of = units.of();
        for (int i = 0; i < of.length; i++) {
            trays.get(of[i]).add(structure.trays().get(i));
        }
    }

    int count() {
        return units.groups();
    }

    List<Tray> trays(int unit) {
        return trays.get(unit);
    }

    /** Such as "single trays" or "whole units of stack". */
    String words() {
        String name = structure.strataNames().get(stratum);
        return name.equals(Place.TRAY) ? "single trays" : "whole units of " + name;
    }

    /** Whether these are the units of a place level too. */
    boolean areUnitsOf(String level) {
        var others = structure.units(level);
        return units.finerThan(others) && others.finerThan(units);
    }

    /** Whether a factor has one level in each unit. */
    boolean haveOne(String factor) {
        return trays.stream()
                .allMatch(t -> t.stream()
                                .map(s -> s.treatment().level(factor))
                                .distinct()
                                .count()
                        == 1);
    }

    /** The level of a factor that has one in each unit. */
    String level(int unit, String factor) {
        return trays.get(unit).get(0).treatment().level(factor);
    }

    /** What the trays of a unit get of these factors, however they stand in it. */
    List<String> contents(int unit, Collection<String> factors) {
        return trays.get(unit).stream()
                .map(t -> t.treatment().only(factors).describe())
                .sorted()
                .toList();
    }

    /** The units of some coarser strata in which each unit lies. */
    List<List<Integer>> within(List<Integer> strata) {
        var within = new ArrayList<List<Integer>>();
        IntStream.range(0, count()).forEach(u -> within.add(new ArrayList<>()));
        for (int s : strata) {
            int[] outer = structure.strata().grouping(s).of();
            int[] of = units.of();
            for (int i = 0; i < of.length; i++) {
                var own = within.get(of[i]);
                if (own.size() == strata.indexOf(s)) {
                    own.add(outer[i]);
                }
            }
        }
        return within;
    }

    /** The strata outside, without those that cross another of them. */
    List<Integer> nestedOutside() {
        var outside = structure.strata().coarser(stratum);
        return outside.stream()
                .filter(a -> outside.stream().allMatch(b -> nested(a, b)))
                .toList();
    }

    List<Integer> outside() {
        return structure.strata().coarser(stratum);
    }

    private boolean nested(int a, int b) {
        var one = structure.strata().grouping(a);
        var other = structure.strata().grouping(b);
        return one.finerThan(other) || other.finerThan(one);
    }

    /**
     * The stands of each unit, numbered in walking order: all of the place's, trays or not; of a batch those of the whole
     * units that get its levels.
     */
    int[][] stands(Bench bench) {
        String name = structure.strataNames().get(stratum);
        var trial = structure.trial();
        String level = trial.place().has(name)
                ? name
                : trial.batches().stream()
                        .filter(b -> b.name().equals(name))
                        .map(b -> trial.appliedLevel(trial.factor(b.of())))
                        .findFirst()
                        .orElseThrow();
        var stands = Layer.standsByUnit(trial, level, bench);
        var key = trial.place().key(level);
        return trays.stream()
                .map(of -> of.stream()
                        .map(t -> Units.of(key, t.stand().at()))
                        .distinct()
                        .flatMapToInt(u -> IntStream.of(stands.get(u)))
                        .sorted()
                        .toArray())
                .toArray(int[][]::new);
    }

    /** The innermost of some strata outside, as " of the same stack", or nothing. */
    String withinWords(List<Integer> strata) {
        var innermost = strata.stream()
                .filter(a -> strata.stream()
                        .noneMatch(b -> b > a
                                && structure
                                        .strata()
                                        .grouping(b)
                                        .finerThan(structure.strata().grouping(a))))
                .map(structure.strataNames()::get)
                .toList();
        return innermost.isEmpty() ? "" : " in the same " + String.join(" and the same ", innermost);
    }
}
