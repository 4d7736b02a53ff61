package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * The treatments that levels of a factor are averaged over. Combinations of the other factors' levels that were sown with
 * every one of these levels serve first. A fraction of all combinations may have none: then those sown with one of them
 * serve, as far as the model tells their cells; else each level's own treatments, if nothing but the factor and its
 * interactions differs between their averages, as in regular fractions.
 *
 * @param byLevel treatments by level, one or more each; empty where the levels can't be told apart
 */
record Combinations(List<List<Treatment>> byLevel) {
    private static final double ROUNDING = 1e-9;

    static Combinations of(Structure structure, Model model, Factor factor, List<String> levels, Treatment among) {
        var sown = structure.trays().stream().map(t -> t.treatment()).collect(Collectors.toSet());
        var some = structure.trial().treatments().stream()
                .filter(t -> levels.get(0).equals(t.level(factor.name())) && t.includes(among))
                .filter(t -> levels.stream().anyMatch(l -> sown.contains(at(t, factor, l))))
                .toList();
        var rests = some.stream()
                .filter(t -> levels.stream().allMatch(l -> sown.contains(at(t, factor, l))))
                .filter(t -> levels.stream().skip(1).allMatch(l -> toldApart(model, t, at(t, factor, l))))
                .toList();
        if (rests.isEmpty() && structure.isFraction()) {
            rests = some.stream()
                    .filter(t -> levels.stream().allMatch(l -> isTold(structure, model, at(t, factor, l))))
                    .toList();
            if (rests.isEmpty()) {
                return own(model, factor, levels, some, sown);
            }
        }
        return new Combinations(rests.isEmpty() ? List.of() : byLevel(factor, levels, rests));
    }

    private static List<List<Treatment>> byLevel(Factor factor, List<String> levels, List<Treatment> rests) {
        return levels.stream()
                .map(l -> rests.stream().map(t -> at(t, factor, l)).toList())
                .toList();
    }

    private static Combinations own(
            Model model, Factor factor, List<String> levels, List<Treatment> some, Set<Treatment> sown) {
        var byLevel = new ArrayList<List<Treatment>>();
        byLevel(factor, levels, some)
                .forEach(of -> byLevel.add(of.stream().filter(sown::contains).toList()));
        boolean even = byLevel.stream().noneMatch(List::isEmpty)
                && byLevel.stream().allMatch(of -> differIn(model, factor, byLevel.get(0), of));
        return new Combinations(even ? List.copyOf(byLevel) : List.of());
    }

    /** Whether the averages of two sets of treatments differ in no column without the factor. */
    private static boolean differIn(Model model, Factor factor, List<Treatment> some, List<Treatment> others) {
        double[] difference = difference(mean(model, some), mean(model, others));
        var without = model.withoutFactor(factor.name());
        return IntStream.range(0, difference.length)
                .filter(without::get)
                .allMatch(j -> Math.abs(difference[j]) < ROUNDING);
    }

    private static double[] mean(Model model, List<Treatment> treatments) {
        var block = model.blocks().get(0);
        var mean = new double[model.row(new Cell(treatments.get(0), block)).length];
        for (Treatment treatment : treatments) {
            double[] row = model.row(new Cell(treatment, block));
            for (int j = 0; j < mean.length; j++) {
                mean[j] += row[j] / treatments.size();
            }
        }
        return mean;
    }

    private static Treatment at(Treatment treatment, Factor factor, String level) {
        return treatment.with(new Treatment(Map.of(factor.name(), level)));
    }

    private static boolean isTold(Structure structure, Model model, Treatment one) {
        return structure.trial().made(one) && model.matrix().estimable(mean(model, List.of(one)));
    }

    private static boolean toldApart(Model model, Treatment one, Treatment other) {
        return model.matrix().estimable(difference(mean(model, List.of(one)), mean(model, List.of(other))));
    }

    private static double[] difference(double[] one, double[] other) {
        return IntStream.range(0, one.length)
                .mapToDouble(j -> one[j] - other[j])
                .toArray();
    }
}
