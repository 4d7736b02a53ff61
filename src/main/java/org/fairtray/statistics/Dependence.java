package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Which columns are combinations of those before them, by a Cholesky factor of their products that grows by a row for each
 * column kept. Where its pivot leaves a doubt, what is left of the column itself is looked at, its combination corrected
 * once, with the tolerance of {@link Span}.
 *
 * <p>Sources: Golub and Van Loan (2013), Matrix Computations, 4th ed., section 4.2; Bjoerck (1996), Numerical Methods for
 * Least Squares Problems, section 6.6.5 (corrected semi-normal equations).
 */
final class Dependence {
    /** A pivot above this share of the column's squared length is no rounding error. */
    private static final double SURE = 1e-6;

    private final List<double[]> columns;
    private final double[][] products;
    private final List<Integer> kept = new ArrayList<>();
    private final List<double[]> lower = new ArrayList<>();
    private final Map<Integer, double[]> combinations = new LinkedHashMap<>();

    /**
     * @param columns k of n numbers each
     * @param products of the columns with each other, k x k
     */
    Dependence(List<double[]> columns, double[][] products) {
        this.columns = columns;
        this.products = products;
        for (int j = 0; j < columns.size(); j++) {
            take(j);
        }
    }

    /** The columns that add something to those before them, in order. */
    List<Integer> kept() {
        return kept;
    }

    /** Every other column as a combination of those kept: a weight for each of them, in their order. */
    Map<Integer, double[]> combinations() {
        var whole = new LinkedHashMap<Integer, double[]>();
        combinations.forEach((j, weights) -> whole.put(j, Arrays.copyOf(weights, kept.size())));
        return whole;
    }

    private void take(int j) {
        double squared = products[j][j];
        double[] row = forward(kept.stream().mapToDouble(i -> products[j][i]).toArray());
        double pivot = squared - Vectors.squaredLength(row);
        if (pivot > SURE * squared) {
            keep(j, row, Math.sqrt(pivot));
            return;
        }
        double[] weights = backward(row);
        var rest = rest(j, weights);
        var correction = kept.stream()
                .mapToDouble(i -> Vectors.dot(columns.get(i), rest))
                .toArray();
        Vectors.takeAway(weights, -1, backward(forward(correction)));
        double left = Math.sqrt(Vectors.squaredLength(rest(j, weights)));
        if (left > Span.TOLERANCE * Math.sqrt(squared)) {
            keep(j, row, left);
        } else {
            combinations.put(j, weights);
        }
    }

    private void keep(int j, double[] row, double pivot) {
        var longer = Arrays.copyOf(row, row.length + 1);
        longer[row.length] = pivot;
        lower.add(longer);
        kept.add(j);
    }

    private double[] rest(int j, double[] weights) {
        var rest = columns.get(j).clone();
        for (int i = 0; i < weights.length; i++) {
            Vectors.takeAway(rest, weights[i], columns.get(kept.get(i)));
        }
        return rest;
    }

    private double[] forward(double[] right) {
        var x = right.clone();
        for (int i = 0; i < x.length; i++) {
            double[] row = lower.get(i);
            for (int k = 0; k < i; k++) {
                x[i] -= row[k] * x[k];
            }
            x[i] /= row[i];
        }
        return x;
    }

    private double[] backward(double[] right) {
        var x = right.clone();
        for (int i = x.length - 1; i >= 0; i--) {
            double[] row = lower.get(i);
            x[i] /= row[i];
            for (int k = 0; k < i; k++) {
                x[k] -= row[k] * x[i];
            }
        }
        return x;
    }
}
