package org.fairtray.statistics;

import java.util.Arrays;

/**
 * The factors of a large symmetric positive definite matrix most of whose entries are 0, A = LDL' with 1s on the diagonal
 * of L: for solving, for the determinant, and for those entries of the inverse that lie where L may differ from 0.
 *
 * <p>Numbers are factored over and over in one {@link SparsePattern}. A workspace: it holds the numbers of the last
 * {@link #factor}, and is for one thread.
 *
 * <p>Sources: Davis (2006), Direct Methods for Sparse Linear Systems, chapter 4; for the inverse Erisman and Tinney
 * (1975), On computing certain elements of the inverse of a sparse matrix, Communications of the ACM 18, 177-179, who
 * credit Takahashi.
 */
public final class SparseCholesky {
    /** Between one by this and this, pivots are multiplied: one logarithm of all takes less time than one of each. */
    private static final double LARGE = 1e100;

    private final int[] start;
    private final int[] row;
    private final int[] changed;
    private final double[] diagonal;
    private final double[] lower;
    private final double[] inverseDiagonal;
    private final double[] inverseLower;

    /** A workspace for matrices whose entries lie in this pattern. */
    public SparseCholesky(SparsePattern pattern) {
        this.start = pattern.start;
        this.row = pattern.row;
        this.changed = pattern.changed;
        this.diagonal = new double[pattern.size()];
        this.lower = new double[row.length];
        this.inverseDiagonal = new double[diagonal.length];
        this.inverseLower = new double[row.length];
    }

    /**
     * Factors a matrix, column by column; each takes its part from the columns to its right.
     *
     * @param onDiagonal the diagonal of A; copied
     * @param below the entries below it, where {@link SparsePattern#position} says, 0 where L alone may differ; copied
     * @return false where A is not positive definite to working precision; then nothing else may be asked
     */
    public boolean factor(double[] onDiagonal, double[] below) {
        System.arraycopy(onDiagonal, 0, diagonal, 0, diagonal.length);
        System.arraycopy(below, 0, lower, 0, lower.length);
        int pair = 0;
        for (int j = 0; j < diagonal.length; j++) {
            double pivot = diagonal[j];
            if (!(pivot > 1e-14 * Math.abs(onDiagonal[j]))) {
                return false;
            }
            for (int a = start[j]; a < start[j + 1]; a++) {
                double factor = lower[a] / pivot;
                diagonal[row[a]] -= factor * lower[a];
                for (int b = a + 1; b < start[j + 1]; b++) {
                    lower[changed[pair++]] -= factor * lower[b];
                }
                lower[a] = factor;
            }
        }
        return true;
    }

    /** Replaces b by the x for which Ax = b. */
    public void solveInPlace(double[] b) {
        int size = diagonal.length;
        for (int j = 0; j < size; j++) {
            double known = b[j];
            for (int a = start[j]; a < start[j + 1]; a++) {
                b[row[a]] -= lower[a] * known;
            }
        }
        for (int j = size - 1; j >= 0; j--) {
            double sum = b[j] / diagonal[j];
            for (int a = start[j]; a < start[j + 1]; a++) {
                sum -= lower[a] * b[row[a]];
            }
            b[j] = sum;
        }
    }

    /** The logarithm of the determinant of A. */
    public double logDeterminant() {
        double sum = 0;
        double product = 1;
        for (double pivot : diagonal) {
            double next = product * pivot;
            boolean inRange = next < LARGE && next > 1 / LARGE;
            sum += inRange ? 0 : Math.log(product) + Math.log(pivot);
            product = inRange ? next : 1;
        }
        return sum + Math.log(product);
    }

    /**
     * Works out the entries of the inverse that lie in the pattern, from the last column to the first:
     *
     * <pre>  Z_ij = -sum over k of L_kj Z_ik,  Z_jj = 1/D_j - sum over k of L_kj Z_kj,  k below j in L</pre>
     */
    public void invert() {
        int pair = changed.length;
        for (int j = diagonal.length - 1; j >= 0; j--) {
            int from = start[j];
            int to = start[j + 1];
            Arrays.fill(inverseLower, from, to, 0);
            for (int a = to - 1; a >= from; a--) {
                inverseLower[a] -= lower[a] * inverseDiagonal[row[a]];
                for (int b = to - 1; b > a; b--) {
                    double between = inverseLower[changed[--pair]];
                    inverseLower[a] -= lower[b] * between;
                    inverseLower[b] -= lower[a] * between;
                }
            }
            double sum = 1 / diagonal[j];
            for (int a = from; a < to; a++) {
                sum -= lower[a] * inverseLower[a];
            }
            inverseDiagonal[j] = sum;
        }
    }

    /** Entry (j, j) of the inverse, after {@link #invert}. */
    public double inverseDiagonal(int j) {
        return inverseDiagonal[j];
    }

    /** The entry of the inverse at a position of the pattern, after {@link #invert}. */
    public double inverseBelow(int position) {
        return inverseLower[position];
    }
}
