package org.fairtray.design.search;

import java.util.Optional;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Vectors;

/**
 * The information C = X'QX + K of one layout on its columns within the blocks, K diagonal, and what a move would make of
 * tr C⁻¹, the sum of the variances that the search makes small (A-efficiency).
 *
 * <p>A move that adds d to the row of unit u, and takes it from that of w where two are interchanged, adds gd' + dg' + cdd'
 * to C, with g = X'Qe, c = e'Qe and e = e_u - e_w (or e_u). So tr C⁻¹ afterwards follows from a 2 x 2 matrix (Woodbury's
 * identity).
 */
final class Information {
    /** What keeps C invertible where a layout is disconnected, so that such layouts can be ranked too. */
    private static final double RIDGE = 1e-6;

    private static final double NOTHING = 1e-12;

    private final Problem problem;
    private final Within within;
    private final int[] given;
    private final double[][] spread;
    private double[][] inverse;
    private double trace;
    private double[][] inverseRows;
    private double[][] inverseSpread;

    Information(Problem problem, Within within, int[] given) {
        this.problem = problem;
        this.within = within;
        this.given = given.clone();
        this.spread = spread();
        refresh();
    }

    /** QX, n x p. */
    private double[][] spread() {
        var spread = new double[problem.units()][problem.columns()];
        for (int i = 0; i < spread.length; i++) {
            for (int j = 0; j < spread.length; j++) {
                Vectors.takeAway(spread[i], -within.entry(i, j), problem.row(j, given[j]));
            }
        }
        return spread;
    }

    private void refresh() {
        var matrix = matrix();
        for (int i = 0; i < matrix.length; i++) {
            matrix[i][i] += Math.max(problem.prior()[i], RIDGE);
        }
        inverse = Cholesky.of(matrix)
                .orElseThrow(() -> new IllegalStateException("information without an inverse in spite of its ridge"))
                .inverse();
        trace = 0;
        for (int i = 0; i < inverse.length; i++) {
            trace += inverse[i][i];
        }
        inverseRows = new double[problem.units()][];
        inverseSpread = new double[problem.units()][];
        for (int u = 0; u < problem.units(); u++) {
            inverseRows[u] = timesInverse(problem.row(u, given[u]));
            inverseSpread[u] = timesInverse(spread[u]);
        }
    }

    /** X'QX, p x p. */
    double[][] matrix() {
        int p = problem.columns();
        var matrix = new double[p][p];
        for (int u = 0; u < problem.units(); u++) {
            var row = problem.row(u, given[u]);
            for (int i = 0; i < p; i++) {
                Vectors.takeAway(matrix[i], -row[i], spread[u]);
            }
        }
        return matrix;
    }

    double trace() {
        return trace;
    }

    int[] given() {
        return given.clone();
    }

    int given(int unit) {
        return given[unit];
    }

    /** tr C⁻¹ after two units of a kind have interchanged what they got. */
    double afterInterchange(int u, int w) {
        var d = Vectors.minus(problem.row(u, given[w]), problem.row(u, given[u]));
        var g = Vectors.minus(spread[u], spread[w]);
        double c = within.entry(u, u) - 2 * within.entry(u, w) + within.entry(w, w);
        return after(
                d,
                g,
                c,
                Vectors.minus(inverseRows[w], inverseRows[u]),
                Vectors.minus(inverseSpread[u], inverseSpread[w]));
    }

    /** tr C⁻¹ after a unit has got another candidate. */
    double afterExchange(int u, int candidate) {
        var d = Vectors.minus(problem.row(u, candidate), problem.row(u, given[u]));
        return after(d, spread[u], within.entry(u, u), timesInverse(d), inverseSpread[u]);
    }

    /** With U = (d, g) and K⁻¹ = (0 1; 1 -c): tr(C + UKU')⁻¹ = tr C⁻¹ - tr((K⁻¹ + U'C⁻¹U)⁻¹ U'C⁻²U). */
    private double after(double[] d, double[] g, double c, double[] ofD, double[] ofG) {
        double a11 = Vectors.dot(d, ofD);
        double a12 = 1 + Vectors.dot(d, ofG);
        double a22 = Vectors.dot(g, ofG) - c;
        double determinant = a11 * a22 - a12 * a12;
        if (-determinant < NOTHING) {
            return Double.POSITIVE_INFINITY;
        }
        double b11 = Vectors.dot(ofD, ofD);
        double b12 = Vectors.dot(ofD, ofG);
        double b22 = Vectors.dot(ofG, ofG);
        return trace - (a22 * b11 - 2 * a12 * b12 + a11 * b22) / determinant;
    }

    void interchange(int u, int w) {
        int kept = given[u];
        set(u, given[w]);
        set(w, kept);
        refresh();
    }

    void exchange(int u, int candidate) {
        set(u, candidate);
        refresh();
    }

    private void set(int unit, int candidate) {
        var d = Vectors.minus(problem.row(unit, candidate), problem.row(unit, given[unit]));
        double[] column = within.column(unit);
        for (int i = 0; i < spread.length; i++) {
            Vectors.takeAway(spread[i], -column[i], d);
        }
        given[unit] = candidate;
    }

    private double[] timesInverse(double[] vector) {
        var product = new double[vector.length];
        for (int i = 0; i < vector.length; i++) {
            product[i] = Vectors.dot(inverse[i], vector);
        }
        return product;
    }

    /** The variances of the columns of interest, summed, with nothing known beforehand; empty where some can't be told. */
    Optional<Double> varianceOfInterest() {
        return sumOfVariances(matrix(), problem.ofInterest());
    }

    static Optional<Double> sumOfVariances(double[][] information, int[] of) {
        var part = new double[of.length][of.length];
        for (int i = 0; i < of.length; i++) {
            for (int j = 0; j < of.length; j++) {
                part[i][j] = information[of[i]][of[j]];
            }
        }
        return Cholesky.of(part).map(Cholesky::inverse).map(inverse -> {
            double sum = 0;
            for (int i = 0; i < inverse.length; i++) {
                sum += inverse[i][i];
            }
            return sum;
        });
    }
}
