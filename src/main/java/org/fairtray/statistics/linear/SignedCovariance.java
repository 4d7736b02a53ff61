package org.fairtray.statistics.linear;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Vectors;

/**
 * A {@link GroupedCovariance} from which groupings with a variance below 0 take something away: units of these are less
 * alike than chance makes them. With A all that is above 0 and N the groupings below it,
 *
 * <pre>  V^-1 = A^-1 + A^-1 N D M^-1 D N' A^-1,   M = I - D N' A^-1 N D,   D = the roots of the sizes of their variances;</pre>
 *
 * V is positive definite where M is.
 *
 * <p>Source: Golub and Van Loan (2013), Matrix Computations, 4th ed., section 2.1.4 (Woodbury's identity).
 */
final class SignedCovariance {
    private final int size;
    private final GroupedCovariance above;
    private final ScaledGroups below;
    private final Cholesky inner;

    private SignedCovariance(int size, GroupedCovariance above, ScaledGroups below, Cholesky inner) {
        this.size = size;
        this.above = above;
        this.below = below;
        this.inner = inner;
    }

    /**
     * Prepares to solve.
     *
     * @param variances one for each component, of any sign, that of the residual above 0
     * @return empty where V is not positive definite
     */
    static Optional<SignedCovariance> of(Components components, double[] variances) {
        int n = components.weights().length;
        var above = new GroupedCovariance(
                components, Arrays.stream(variances).map(v -> Math.max(0, v)).toArray());
        var below = new ScaledGroups(IntStream.range(0, components.residual())
                .filter(k -> variances[k] < 0)
                .mapToObj(k -> new ScaledGroups.Scaled(components.groupings().get(k), Math.sqrt(-variances[k])))
                .toList());
        double[][] matrix = below.products(above::solve, n);
        for (int j = 0; j < matrix.length; j++) {
            for (int k = 0; k < matrix.length; k++) {
                matrix[j][k] = (j == k ? 1 : 0) - matrix[j][k];
            }
        }
        return Cholesky.of(matrix).map(inner -> new SignedCovariance(n, above, below, inner));
    }

    /** V^-1 times a vector of n numbers, which is not changed. */
    double[] solve(double[] vector) {
        double[] first = above.solve(vector);
        if (below.each().isEmpty()) {
            return first;
        }
        double[] taken = below.spread(inner.solve(below.gather(first)), size);
        Vectors.takeAway(first, -1, above.solve(taken));
        return first;
    }

    /** The natural logarithm of the determinant of V. */
    double logDeterminant() {
        return above.logDeterminant() + inner.logDeterminant();
    }
}
