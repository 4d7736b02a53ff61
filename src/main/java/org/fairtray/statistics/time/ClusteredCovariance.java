package org.fairtray.statistics.time;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Vectors;

/**
 * The covariance of coefficients by the sums of their scores over clusters, in place of what a model says of them.
 *
 * <pre>  A (sum over clusters g of u_g u_g') A,  u_g = X_g' r_g</pre>
 *
 * with A the inverse of the information, X_g the rows of a cluster times the roots of their weights and r_g standardised
 * residuals.
 */
final class ClusteredCovariance {
    private ClusteredCovariance() {}

    /**
     * What a fit gives.
     *
     * @param rows n rows of k numbers, times the roots of their weights
     * @param residuals n residuals over their standard deviations
     * @param inverse k x k, the inverse of the sum of products of the rows
     */
    record Parts(double[][] rows, double[] residuals, double[][] inverse) {}

    /**
     * Liang and Zeger's (1986), Biometrika 73, 13-22, times G / (G - k), which makes up for residuals that are too small by
     * k fitted coefficients: the factor of Hinkley (1977), Technometrics 19, 285-292, for G clusters in place of n rows.
     *
     * @return k x k; empty where there are no more clusters than coefficients
     */
    static Optional<double[][]> scaled(Parts parts, Grouping clusters) {
        int k = parts.inverse.length;
        int groups = clusters.groups();
        if (groups <= k) {
            return Optional.empty();
        }
        var scores = new ArrayList<double[]>();
        for (var members : members(clusters)) {
            scores.add(score(
                    parts,
                    members,
                    members.stream().mapToDouble(i -> parts.residuals[i]).toArray()));
        }
        return Optional.of(between(parts, scores, groups / (double) (groups - k)));
    }

    /**
     * Mancl and DeRouen's (2001), Biometrics 57, 126-134, formula (2) and what follows it: r_g is replaced by
     * (I - H_g)^-1 r_g, H_g = X_g A X_g'.
     *
     * @return k x k; empty where a cluster determines a coefficient by itself, so that I - H_g has no inverse, or there is
     *     one cluster only
     */
    static Optional<double[][]> unbiased(Parts parts, Grouping clusters) {
        var scores = new ArrayList<double[]>();
        for (var members : members(clusters)) {
            var free = freed(parts, members);
            if (free.isEmpty()) {
                return Optional.empty();
            }
            scores.add(score(parts, members, free.get()));
        }
        return Optional.of(between(parts, scores, 1));
    }

    private static List<List<Integer>> members(Grouping clusters) {
        var members = new ArrayList<List<Integer>>();
        for (int g = 0; g < clusters.groups(); g++) {
            members.add(new ArrayList<>());
        }
        int[] of = clusters.of();
        for (int i = 0; i < of.length; i++) {
            members.get(of[i]).add(i);
        }
        return members;
    }

    private static Optional<double[]> freed(Parts parts, List<Integer> members) {
        int size = members.size();
        var rest = new double[size][size];
        var residuals = new double[size];
        for (int a = 0; a < size; a++) {
            residuals[a] = parts.residuals[members.get(a)];
            double[] pull = times(parts.inverse, parts.rows[members.get(a)]);
            for (int b = 0; b < size; b++) {
                rest[a][b] = (a == b ? 1 : 0) - Vectors.dot(pull, parts.rows[members.get(b)]);
            }
        }
        return Cholesky.of(rest).filter(ClusteredCovariance::isSound).map(factor -> factor.solve(residuals));
    }

    /** Rounding can hide that a matrix has no inverse; then its determinant is nothing but rounding. */
    private static boolean isSound(Cholesky factor) {
        return factor.logDeterminant() > Math.log(1e-10);
    }

    private static double[] score(Parts parts, List<Integer> members, double[] residuals) {
        var sum = new double[parts.inverse.length];
        for (int a = 0; a < residuals.length; a++) {
            Vectors.takeAway(sum, -residuals[a], parts.rows[members.get(a)]);
        }
        return sum;
    }

    private static double[][] between(Parts parts, List<double[]> scores, double factor) {
        int k = parts.inverse.length;
        var sum = new double[k][k];
        for (double[] score : scores) {
            double[] pull = times(parts.inverse, score);
            for (int a = 0; a < k; a++) {
                Vectors.takeAway(sum[a], -factor * pull[a], pull);
            }
        }
        return sum;
    }

    private static double[] times(double[][] matrix, double[] vector) {
        var product = new double[matrix.length];
        for (int a = 0; a < product.length; a++) {
            product[a] = Vectors.dot(matrix[a], vector);
        }
        return product;
    }
}
