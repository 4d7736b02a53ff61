package org.fairtray.statistics.linear;

import java.util.Comparator;
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
    private final ScaledGroups rest;
    private final Cholesky inner;
    private final double logDeterminant;

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
                .mapToObj(k -> new ScaledGroups.Scaled(components.groupings().get(k), Math.sqrt(variances[k])))
                .sorted(Comparator.comparing(s -> -s.grouping().groups()))
                .toList();
        var first = present.isEmpty() ? new ScaledGroups.Scaled(Grouping.whole(precision.length), 0) : present.get(0);
        this.finest = first.grouping();
        this.shrink = finest.sums(precision);
        this.rest = new ScaledGroups(present.isEmpty() ? present : present.subList(1, present.size()));
        double logOfBase = shrink(first.by() * first.by());
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
        double[][] matrix = rest.products(this::base, precision.length);
        for (int j = 0; j < matrix.length; j++) {
            matrix[j][j] += 1;
        }
        return matrix;
    }

    /** V^-1 times a vector of n numbers, which is not changed. */
    double[] solve(double[] vector) {
        var first = base(vector);
        return rest.each().isEmpty()
                ? first
                : base(Vectors.minus(vector, rest.spread(inner.solve(rest.gather(first)), vector.length)));
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
}
