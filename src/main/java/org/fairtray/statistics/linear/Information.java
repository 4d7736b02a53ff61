package org.fairtray.statistics.linear;

import java.util.Arrays;
import org.fairtray.statistics.Vectors;

/**
 * How the restricted likelihood depends on the variances. With P = V^-1 - V^-1 X Phi X'V^-1, Phi = (X'V^-1 X)^-1 = TT' and
 * U = V^-1 X T,
 *
 * <pre>
 *   gradient of -2 log L:    tr(P V_i) - y'P V_i P y
 *   its expected curvature:  tr(P V_i P V_j) = tr(V^-1 V_i V^-1 V_j) - 2 tr(Q_ij) + tr(S_i S_j)
 *   S_i = U'V_i U,   Q_ij = U'V_i V^-1 V_j U
 * </pre>
 *
 * S and Q are those of Kenward and Roger (their P_i = -X'V^-1 V_i V^-1 X and Q_ij) between T' and T.
 *
 * <p>Source: Searle, Casella and McCulloch (1992), Variance Components, sections 6.6 and 8.3; Kenward and Roger (1997),
 * Biometrics 53, 983-997.
 */
final class Information {
    private final RestrictedLikelihood at;
    private final int count;
    private final double[] traces;
    private final double[][] squares;
    private final double[][][] moved;
    private final double[][][] solved;

    Information(RestrictedLikelihood at) {
        this.at = at;
        this.count = at.components.count();
        this.traces = new double[count];
        this.squares = new double[count][count];
        this.moved = new double[count][][];
        this.solved = new double[count][][];
        for (int k = 0; k < count; k++) {
            int component = k;
            moved[k] = Arrays.stream(at.whitened())
                    .map(u -> at.components.times(component, u))
                    .toArray(double[][]::new);
            solved[k] = Arrays.stream(moved[k]).map(at.covariance::solve).toArray(double[][]::new);
        }
        traceGroupings();
        traceResidual();
    }

    /** tr(V^-1 V_j) and tr(V^-1 V_i V^-1 V_j) of the groupings, by what V^-1 makes of each group's indicator. */
    private void traceGroupings() {
        var groupings = at.components.groupings();
        for (int j = 0; j < groupings.size(); j++) {
            int[] of = groupings.get(j).of();
            for (int g = 0; g < groupings.get(j).groups(); g++) {
                int group = g;
                double[] x = at.covariance.solve(
                        Arrays.stream(of).mapToDouble(o -> o == group ? 1 : 0).toArray());
                for (int i = 0; i < groupings.size(); i++) {
                    double[] sums = groupings.get(i).sums(x);
                    squares[i][j] += Vectors.squaredLength(sums);
                    traces[j] += i == j ? sums[g] : 0;
                }
            }
        }
    }

    /** The residual's follow from V = v_0 W^-1 + sum of v_k V_k. */
    private void traceResidual() {
        int last = count - 1;
        double v = at.variances[last];
        double rest = at.projected().length;
        for (int j = 0; j < last; j++) {
            double shared = traces[j];
            for (int k = 0; k < last; k++) {
                shared -= at.variances[k] * squares[k][j];
            }
            squares[last][j] = shared / v;
            squares[j][last] = squares[last][j];
            rest -= at.variances[j] * traces[j];
        }
        traces[last] = rest / v;
        for (int j = 0; j < last; j++) {
            rest -= at.variances[j] * v * squares[last][j];
        }
        squares[last][last] = rest / (v * v);
    }

    /** The gradient of -2 log L by the variances. */
    double[] gradient() {
        var gradient = new double[count];
        for (int k = 0; k < count; k++) {
            double fixed = 0;
            for (int a = 0; a < at.whitened().length; a++) {
                fixed += Vectors.dot(at.whitened()[a], moved[k][a]);
            }
            double seen = Vectors.dot(at.projected(), at.components.times(k, at.projected()));
            gradient[k] = traces[k] - fixed - seen;
        }
        return gradient;
    }

    /** tr(P V_i P V_j), the expected curvature of -2 log L. */
    double[][] expected() {
        var shares = new double[count][][];
        for (int k = 0; k < count; k++) {
            shares[k] = share(k);
        }
        var matrix = new double[count][count];
        for (int i = 0; i < count; i++) {
            for (int j = 0; j < count; j++) {
                matrix[i][j] = squares[i][j];
                for (int a = 0; a < shares[i].length; a++) {
                    matrix[i][j] -= 2 * Vectors.dot(moved[i][a], solved[j][a]);
                    matrix[i][j] += Vectors.dot(shares[i][a], shares[j][a]);
                }
            }
        }
        return matrix;
    }

    /** tr(V^-1 V_k V^-1 V_k), what {@link #expected} would be with nothing to estimate beside. */
    double unadjusted(int k) {
        return squares[k][k];
    }

    /** S_k, p x p. */
    double[][] share(int k) {
        return products(at.whitened(), moved[k]);
    }

    /** Q_ij, p x p. */
    double[][] cross(int i, int j) {
        return products(moved[i], solved[j]);
    }

    private static double[][] products(double[][] left, double[][] right) {
        var products = new double[left.length][right.length];
        for (int a = 0; a < left.length; a++) {
            for (int b = 0; b < right.length; b++) {
                products[a][b] = Vectors.dot(left[a], right[b]);
            }
        }
        return products;
    }
}
