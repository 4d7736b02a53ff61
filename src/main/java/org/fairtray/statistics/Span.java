package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.List;

/**
 * The space spanned by some columns, as an orthonormal basis found by Gram-Schmidt with every column orthogonalised
 * twice. A column that adds less than {@value #TOLERANCE} of its own length is taken to be a combination of those before
 * it, so which columns are redundant depends on their order: the later ones are.
 *
 * <p>Source: Bjoerck (1996), Numerical Methods for Least Squares Problems, section 2.4; "twice is enough": Giraud,
 * Langou and Rozloznik (2005), Computers and Mathematics with Applications 50, 1069-1075.
 */
public final class Span {
    /** Columns of designs are made of 0s and 1s and their averages: what remains of a redundant one is about 1e-15. */
    public static final double TOLERANCE = 1e-9;

    private final List<double[]> basis;

    private Span(List<double[]> basis) {
        this.basis = basis;
    }

    /** The space of nothing but zero. */
    public static Span empty() {
        return new Span(List.of());
    }

    /**
     * The space of these columns added to this one.
     *
     * @param columns each of n numbers, with n the same throughout; not changed
     */
    public Span with(List<double[]> columns) {
        var longer = new ArrayList<>(basis);
        columns.forEach(column -> extend(longer, column));
        return new Span(longer);
    }

    private static void extend(List<double[]> basis, double[] column) {
        var rest = without(basis, column);
        double length = Math.sqrt(Vectors.squaredLength(rest));
        if (length <= TOLERANCE * Math.sqrt(Vectors.squaredLength(column))) {
            return;
        }
        for (int i = 0; i < rest.length; i++) {
            rest[i] /= length;
        }
        basis.add(rest);
    }

    /** How many dimensions it has. */
    public int dimension() {
        return basis.size();
    }

    /** The orthonormal vectors from number {@code from} on: what {@link #with} added to a span of that dimension. */
    public List<double[]> basisFrom(int from) {
        return basis.subList(from, basis.size()).stream().map(double[]::clone).toList();
    }

    /** The part of a vector that is not in this space. */
    public double[] residual(double[] vector) {
        return without(basis, vector);
    }

    /** Squared length of the part of a vector along the basis vectors from number {@code from} on. */
    public double squaredLengthAlong(double[] vector, int from) {
        double sum = 0;
        for (var direction : basis.subList(from, basis.size())) {
            double along = Vectors.dot(direction, vector);
            sum += along * along;
        }
        return sum;
    }

    private static double[] without(List<double[]> basis, double[] vector) {
        var rest = vector.clone();
        for (int pass = 0; pass < 2; pass++) {
            for (var direction : basis) {
                Vectors.takeAway(rest, Vectors.dot(direction, rest), direction);
            }
        }
        return rest;
    }
}
