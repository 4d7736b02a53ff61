package org.fairtray.analysis;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.statistics.comparisons.OrthogonalPolynomials;
import org.fairtray.trial.Factor;

/**
 * The levels of a numeric factor that were sown, from the lowest to the highest. For reckoning they are brought between
 * -1 and 1, since powers of large levels would swamp all else.
 *
 * @param factor whose levels they are
 * @param names as the plan writes them, two or more
 * @param numbers what they are worth, rising
 */
record NumericLevels(Factor factor, List<String> names, List<Double> numbers) {

    /** Those of a factor; empty where a level is no number, fewer than two were sown, or two are the same number. */
    static Optional<NumericLevels> of(Structure structure, Factor factor) {
        if (!factor.numeric()) {
            return Optional.empty();
        }
        var names = factor.levels().stream()
                .filter(l -> structure.trays().stream()
                        .anyMatch(t -> l.equals(t.treatment().level(factor.name()))))
                .sorted(Comparator.comparingDouble(Double::parseDouble))
                .toList();
        var levels = new NumericLevels(
                factor, names, names.stream().map(Double::valueOf).toList());
        return names.size() > 1 && levels.areApart() ? Optional.of(levels) : Optional.empty();
    }

    private boolean areApart() {
        double half = half();
        double[] scaled = scaled();
        return half > 0
                && Double.isFinite(half)
                && Arrays.stream(scaled).allMatch(Double::isFinite)
                && Arrays.stream(scaled).distinct().count() == scaled.length;
    }

    double lowest() {
        return numbers.get(0);
    }

    double highest() {
        return numbers.get(numbers.size() - 1);
    }

    private double centre() {
        return (lowest() + highest()) / 2;
    }

    /** Half the way from the lowest to the highest: the unit of the scaled levels. */
    double half() {
        return (highest() - lowest()) / 2;
    }

    /** The levels between -1 and 1. */
    double[] scaled() {
        return numbers.stream().mapToDouble(n -> (n - centre()) / half()).toArray();
    }

    /** A scaled level back in the factor's unit. */
    double unscaled(double scaled) {
        return centre() + half() * scaled;
    }

    /** Of the scaled levels, each weighing the same. */
    OrthogonalPolynomials polynomials() {
        return OrthogonalPolynomials.of(scaled());
    }
}
