package org.fairtray.statistics.comparisons;

import java.util.Arrays;
import org.fairtray.statistics.Eigen;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * The largest of k two-sided t of any correlation R = AA' of rank r. T = A u |Z| / S with u a random direction in r
 * dimensions and |Z|^2 / (r S^2) an F of r and df degrees of freedom, so that
 *
 * <pre>
 *   P(some |T_i| > t) = E[M],   M = G(t / max |a_i'u|),   G(y) = P(F > y^2 / r)
 *   k P(|T_1| > t)    = E[C],   C = sum over i of G(t / |a_i'u|)
 * </pre>
 *
 * The averages are over the directions of a {@link Lattice}, always the same. The second is known exactly, so what its
 * average misses tells much of what the first's does: the answer is M + (1 - M)(k P(|T_1| > t) - C). How often |a_i'u| falls
 * where is kept in a table of {@value #CELLS} cells, between whose ends G is taken as straight. For up to 12
 * comparisons p is right to 1e-4 where it is below 0.2, to 1e-3 above.
 *
 * <p>Source: Deak (1980), Numerische Mathematik 35, 369-380; Genz and Bretz (2009), Computation of Multivariate Normal and
 * t Probabilities, chapter 4 (spherical-radial transformation, lattice rules, control variates).
 */
final class Directions {
    private static final int POINTS = 1 << 18;
    private static final int CELLS = 512;
    private static final double NO_VARIANCE = 1e-10;

    private final double[] largest;
    private final double[] all;
    private final int comparisons;
    private final int rank;
    private final double df;

    private Directions(double[] largest, double[] all, int comparisons, int rank, double df) {
        this.largest = largest;
        this.all = all;
        this.comparisons = comparisons;
        this.rank = rank;
        this.df = df;
    }

    /**
     * Prepares the table.
     *
     * @throws IllegalArgumentException if an eigenvalue is below 0
     */
    static Directions of(double[][] correlation, double df) {
        double[][] rows = root(correlation);
        int rank = rows[0].length;
        var lattice = new Lattice(rank);
        var largest = new double[CELLS + 1];
        var all = new double[CELLS + 1];
        for (int point = 1; point <= POINTS; point++) {
            double[] direction = lattice.direction(point);
            double most = 0;
            for (double[] row : rows) {
                double cosine = Math.min(1, Math.abs(Vectors.dot(row, direction)));
                most = Math.max(most, cosine);
                add(all, cosine);
            }
            add(largest, most);
        }
        return new Directions(largest, all, correlation.length, rank, df);
    }

    /** The rows a_i with a_i'a_j = rho_ij, k x r. */
    private static double[][] root(double[][] correlation) {
        var eigen = Eigen.of(correlation);
        double[] values = eigen.values();
        if (Arrays.stream(values).anyMatch(v -> v < -1e-8)) {
            throw new IllegalArgumentException(
                    "eigenvalues of the correlations " + Arrays.toString(values) + ": expected none below 0");
        }
        int rank = (int) Arrays.stream(values).filter(v -> v > NO_VARIANCE).count();
        var rows = new double[correlation.length][rank];
        for (int j = 0; j < rank; j++) {
            for (int i = 0; i < rows.length; i++) {
                rows[i][j] = eigen.directions()[j][i] * Math.sqrt(values[j]);
            }
        }
        return rows;
    }

    /** Adds one point at a place in [0, 1], divided between the ends of its cell. */
    private static void add(double[] table, double place) {
        int cell = Math.min(CELLS - 1, (int) (place * CELLS));
        double share = place * CELLS - cell;
        table[cell] += (1 - share) / POINTS;
        table[cell + 1] += share / POINTS;
    }

    /** P(some |T_i| > t); t 0 or more. */
    double upper(double t) {
        if (t == 0) {
            return 1;
        }
        double ofLargest = 0;
        double ofAll = 0;
        for (int cell = 1; cell <= CELLS; cell++) {
            double beyond = radial(t * CELLS / cell);
            ofLargest += largest[cell] * beyond;
            ofAll += all[cell] * beyond;
        }
        double mended = ofLargest + (1 - ofLargest) * (comparisons * single(t) - ofAll);
        return Math.min(1, Math.max(single(t), mended));
    }

    private double single(double t) {
        return Double.isInfinite(df) ? Tail.chiSquared(t * t, 1) : Tail.tTwoSided(t, df);
    }

    private double radial(double y) {
        return Double.isInfinite(df) ? Tail.chiSquared(y * y, rank) : Tail.f(y * y / rank, rank, df);
    }
}
