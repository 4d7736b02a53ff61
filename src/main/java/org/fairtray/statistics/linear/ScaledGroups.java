package org.fairtray.statistics.linear;

import java.util.Arrays;
import java.util.List;
import java.util.function.UnaryOperator;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Vectors;

/**
 * The columns R D: the indicators of the groups of some groupings, each times a number of its grouping.
 *
 * @param each the groupings with their numbers
 */
record ScaledGroups(List<Scaled> each) {

    /** A grouping and what its indicators are multiplied by. */
    record Scaled(Grouping grouping, double by) {}

    /** How many columns there are. */
    int width() {
        return each.stream().mapToInt(s -> s.grouping.groups()).sum();
    }

    /** D R' times a vector. */
    double[] gather(double[] vector) {
        return each.stream()
                .flatMapToDouble(s -> Arrays.stream(s.grouping.sums(vector)).map(sum -> sum * s.by))
                .toArray();
    }

    /** R D times a vector of one number for each column, n numbers. */
    double[] spread(double[] byColumn, int n) {
        var sum = new double[n];
        int from = 0;
        for (var scaled : each) {
            int to = from + scaled.grouping.groups();
            var own = Components.spread(scaled.grouping, Arrays.copyOfRange(byColumn, from, to));
            Vectors.takeAway(sum, -scaled.by, own);
            from = to;
        }
        return sum;
    }

    /** D R' S R D, S being a symmetric n x n matrix given by what it makes of a vector. */
    double[][] products(UnaryOperator<double[]> by, int n) {
        var matrix = new double[width()][];
        var unit = new double[matrix.length];
        for (int j = 0; j < matrix.length; j++) {
            unit[j] = 1;
            matrix[j] = gather(by.apply(spread(unit, n)));
            unit[j] = 0;
        }
        return matrix;
    }
}
