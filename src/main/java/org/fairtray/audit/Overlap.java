package org.fairtray.audit;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * How far the levels of a factor go together with something else, such as the shelves.
 *
 * <p>The share of the factor's contrasts that lies between the groups, (Σ n_ag² / (n_a n_g) − 1) / (levels − 1), with n_ag
 * trays of level a in group g: the mean square contingency divided by its degrees of freedom, which for a main effect is what
 * {@code Decomposition.confoundedWith} finds from its contrasts, without these; 0 where every group holds
 * the levels alike, 1 where the level changes only with the group.
 *
 * <p>Source: Bailey (2008), Design of Comparative Experiments, chapter 11 (efficiency of incomplete blocks; from memory).
 *
 * @param share as above, from 0 to 1
 * @param least what it must be at the least, for the numbers of trays in the groups and of the levels
 */
record Overlap(double share, double least) {

    static Overlap of(List<?> levels, List<?> groups) {
        var byLevel = count(levels);
        var byGroup = count(groups);
        var together = count(IntStream.range(0, levels.size())
                .mapToObj(i -> List.of(levels.get(i), groups.get(i)))
                .toList());
        double sum = 0;
        for (var cell : together.entrySet()) {
            double trays = cell.getValue();
            sum += trays
                    * trays
                    / byLevel.get(cell.getKey().get(0))
                    / byGroup.get(cell.getKey().get(1));
        }
        double df = Math.max(1, byLevel.size() - 1);
        return new Overlap(Math.max(0, sum - 1) / df, least(byLevel, byGroup, levels.size()) / df);
    }

    private static <T> Map<T, Integer> count(List<T> things) {
        return things.stream().collect(Collectors.toMap(t -> t, t -> 1, Integer::sum, HashMap::new));
    }

    /** Each group filled tray by tray with the level that then lies nearest to its share. */
    private static double least(Map<?, Integer> byLevel, Map<?, Integer> byGroup, int all) {
        double sum = 0;
        for (int size : byGroup.values()) {
            double[] expected = byLevel.values().stream()
                    .mapToDouble(n -> (double) n * size / all)
                    .toArray();
            var given = new int[expected.length];
            for (int tray = 0; tray < size; tray++) {
                given[cheapest(expected, given)]++;
            }
            for (int a = 0; a < expected.length; a++) {
                double off = given[a] - expected[a];
                sum += off * off / expected[a] / all;
            }
        }
        return sum;
    }

    private static int cheapest(double[] expected, int[] given) {
        int best = 0;
        for (int a = 1; a < expected.length; a++) {
            if ((2 * given[a] + 1) / expected[a] < (2 * given[best] + 1) / expected[best]) {
                best = a;
            }
        }
        return best;
    }

    /** How much more goes together than must. */
    double excess() {
        return share - least;
    }
}
