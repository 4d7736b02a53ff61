package org.fairtray.statistics.linear;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Vectors;

/**
 * Which variances the layout can tell from the columns of the model and from each other: V_k between the residuals of the
 * model must not be a combination of the residual's and of those of the groupings before it. A grouping with one thing in
 * each group is the residual again; one whose groups are columns of the model leaves nothing.
 *
 * <p>Source: Searle, Casella and McCulloch (1992), Variance Components, section 8.3: the information must have an inverse.
 */
final class Estimable {
    /** What is left of an exact relation is rounding. */
    private static final double ROUNDING = 1e-8;

    private Estimable() {}

    /** Which components are; the likelihood is one with no variance but the residual's. */
    static boolean[] among(RestrictedLikelihood at) {
        var information = new Information(at);
        double[][] matrix = information.expected();
        var kept = new ArrayList<Integer>();
        var estimable = new boolean[matrix.length];
        var order = Stream.concat(
                        Stream.of(at.components.residual()),
                        Stream.iterate(0, k -> k + 1).limit(at.components.residual()))
                .toList();
        for (int k : order) {
            if (own(matrix, kept, k) > ROUNDING * information.unadjusted(k)) {
                kept.add(k);
                estimable[k] = true;
            }
        }
        return estimable;
    }

    /** What k adds to those kept, by the Schur complement. */
    private static double own(double[][] matrix, List<Integer> kept, int k) {
        if (kept.isEmpty()) {
            return matrix[k][k];
        }
        double[] shared = kept.stream().mapToDouble(j -> matrix[k][j]).toArray();
        double[][] among = kept.stream()
                .map(a -> kept.stream().mapToDouble(b -> matrix[a][b]).toArray())
                .toArray(double[][]::new);
        double[] fitted = Cholesky.of(among).orElseThrow().solve(shared);
        return matrix[k][k] - Vectors.dot(shared, fitted);
    }
}
