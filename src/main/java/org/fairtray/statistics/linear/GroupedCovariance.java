package org.fairtray.statistics.linear;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Vectors;

/**
 * The covariance V = v_0 W^-1 + sum of v_k Z_k Z_k' of n values that share groups, inverted without an n x n matrix. The
 * residual and the grouping with the most groups make B, whose inverse is known for each group; what the other groupings
 * R add is put on by Woodbury's identity,
 *
 * <pre>  V^-1 = B^-1 - B^-1 R D C^-1 D R' B^-1,   C = I + D R' B^-1 R D,   D = the roots of their variances,</pre>
 *
 * so that the only matrix to factor is as large as the number of groups of these.
 *
 * <p>Source: Golub and Van Loan (2013), Matrix Computations, 4th ed., section 2.1.4; Searle, Casella and McCulloch (1992),
 * Variance Components, appendix M.5.
 */
final class GroupedCovariance {
    private final double[] precision;
    private final Grouping finest;
    private final double[] shrink;
    private final List<Scaled> rest;
    private final int width;
    private final Cholesky inner;
    private final double logDeterminant;

    /** A grouping with the standard deviation of its groups. */
    private record Scaled(Grouping grouping, double deviation) {}

    /**
     * Prepares to solve.
     *
     * @param variances one for each component, 0 or more, that of the residual above 0
     */
    GroupedCovariance(Components components, double[] variances) {
        double residual = variances[components.residual()];
        this.precision = java.util.Arrays.stream(components.weights())
                .map(w -> w / residual)
                .toArray();
        var present = IntStream.range(0, components.residual())
                .filter(k -> variances[k] > 0)
                .mapToObj(k -> new Scaled(components.groupings().get(k), Math.sqrt(variances[k])))
                .sorted(Comparator.comparing(s -> -s.grouping.groups()))
                .toList();
        var first = present.isEmpty() ? new Scaled(Grouping.whole(precision.length), 0) : present.get(0);
        this.finest = first.grouping;
        this.shrink = finest.sums(precision);
        this.rest = present.isEmpty() ? present : present.subList(1, present.size());
        this.width = rest.stream().mapToInt(s -> s.grouping.groups()).sum();
        double logOfBase = shrink(first.deviation * first.deviation);
        this.inner = Cholesky.of(inner()).orElseThrow();
        this.logDeterminant = logOfBase + inner.logDeterminant();
    }

    /** Turns the sums of precision by group into what solving takes of them; gives the logarithm of B's determinant. */
    private double shrink(double variance) {
        double log = 0;
        for (double each : precision) {
            log -= Math.log(each);
        }
        for (int g = 0; g < shrink.length; g++) {
            double scale = 1 + variance * shrink[g];
            log += Math.log(scale);
            shrink[g] = variance / scale;
        }
        return log;
    }

    private double[][] inner() {
        var matrix = new double[width][];
        var unit = new double[width];
        for (int j = 0; j < width; j++) {
            unit[j] = 1;
            matrix[j] = gather(base(spread(unit)));
            unit[j] = 0;
            matrix[j][j] += 1;
        }
        return matrix;
    }

    /** V^-1 times a vector of n numbers, which is not changed. */
    double[] solve(double[] vector) {
        var first = base(vector);
        if (width == 0) {
            return first;
        }
        return base(Vectors.minus(vector, spread(inner.solve(gather(first)))));
    }

    /** The natural logarithm of the determinant of V. */
    double logDeterminant() {
        return logDeterminant;
    }

    /** B^-1 times a vector. */
    private double[] base(double[] vector) {
        var product = new double[vector.length];
        for (int i = 0; i < vector.length; i++) {
            product[i] = precision[i] * vector[i];
        }
        var shared = finest.sums(product);
        for (int g = 0; g < shared.length; g++) {
            shared[g] *= shrink[g];
        }
        var taken = Components.spread(finest, shared);
        for (int i = 0; i < vector.length; i++) {
            product[i] -= precision[i] * taken[i];
        }
        return product;
    }

    /** D R' times a vector. */
    private double[] gather(double[] vector) {
        return rest.stream()
                .flatMapToDouble(
                        s -> java.util.Arrays.stream(s.grouping.sums(vector)).map(sum -> sum * s.deviation))
                .toArray();
    }

    /** R D times a vector of one number for each group. */
    private double[] spread(double[] byGroup) {
        var sum = new double[precision.length];
        int from = 0;
        for (var each : rest) {
            int to = from + each.grouping.groups();
            var own = Components.spread(each.grouping, java.util.Arrays.copyOfRange(byGroup, from, to));
            Vectors.takeAway(sum, -each.deviation, own);
            from = to;
        }
        return sum;
    }
}
