package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The columns of a regression, each with its name, with redundant ones left out: a column that is a combination of those
 * before it. Immutable.
 */
public final class ModelMatrix {
    /** Weights are averages of 0s and 1s; what is left of an exact relation is rounding. */
    private static final double ROUNDING = 1e-6;

    private final List<String> allNames;
    private final List<Integer> kept;
    private final double[][] rows;
    private final List<Relation> relations;

    /** A redundant column as the combination of the kept ones that it is. */
    private record Relation(int column, double[] combination) {}

    private ModelMatrix(List<String> allNames, List<Integer> kept, double[][] rows, List<Relation> relations) {
        this.allNames = allNames;
        this.kept = kept;
        this.rows = rows;
        this.relations = relations;
    }

    /** A named column of n numbers, which is not to be changed afterwards. */
    public record Column(String name, double[] values) {}

    /**
     * Keeps the columns that add something to those before them.
     *
     * @param columns one or more, of n numbers each
     */
    public static ModelMatrix of(List<Column> columns) {
        var arrays = columns.stream().map(Column::values).toList();
        var names = columns.stream().map(Column::name).toList();
        var numbers = IntStream.range(0, arrays.size()).boxed().toList();
        var all = new ModelMatrix(names, numbers, rows(arrays, numbers), List.of());
        var ones = new double[all.height()];
        Arrays.fill(ones, 1);
        var dependence = new Dependence(arrays, all.products(ones));
        var kept = dependence.kept();
        if (kept.size() == arrays.size()) {
            return all;
        }
        var relations = new ArrayList<Relation>();
        dependence.combinations().forEach((column, weights) -> relations.add(new Relation(column, weights)));
        return new ModelMatrix(names, kept, rows(arrays, kept), relations);
    }

    private static double[][] rows(List<double[]> columns, List<Integer> some) {
        var rows = new double[columns.get(0).length][some.size()];
        for (int j = 0; j < some.size(); j++) {
            double[] column = columns.get(some.get(j));
            for (int i = 0; i < rows.length; i++) {
                rows[i][j] = column[i];
            }
        }
        return rows;
    }

    /** Names of the columns kept, in order. */
    public List<String> names() {
        return kept.stream().map(allNames::get).toList();
    }

    /** Names of the columns left out. */
    public List<String> redundant() {
        return relations.stream().map(r -> allNames.get(r.column)).toList();
    }

    /**
     * Whether a combination of the coefficients of all columns can be estimated: it gives every redundant column the
     * weight that follows from the kept ones.
     *
     * @param weights one for each column that was given, redundant ones too
     */
    public boolean estimable(double[] weights) {
        double[] inside = ofKept(weights);
        return relations.stream()
                .allMatch(r -> Math.abs(weights[r.column] - Vectors.dot(r.combination, inside)) < ROUNDING);
    }

    /** The weights of the kept columns among those of all. */
    public double[] ofKept(double[] weights) {
        return kept.stream().mapToDouble(j -> weights[j]).toArray();
    }

    /**
     * The columns that are left where the combination w'b of the kept coefficients is held: the coefficient with the largest
     * weight, at {@link #held}, is written by the others, b_h = (w'b - sum over j of w_j b_j) / w_h. The others keep
     * their meaning; {@code held} column times (w'b) / w_h is to be added to the linear predictor.
     *
     * @param weights one for each kept column, not all 0
     */
    public ModelMatrix holding(double[] weights) {
        int out = held(weights);
        var left = new double[rows.length][kept.size() - 1];
        for (int i = 0; i < rows.length; i++) {
            for (int j = 0; j < kept.size(); j++) {
                if (j != out) {
                    left[i][j < out ? j : j - 1] = rows[i][j] - rows[i][out] * weights[j] / weights[out];
                }
            }
        }
        var others = new ArrayList<>(kept);
        others.remove(out);
        return new ModelMatrix(allNames, List.copyOf(others), left, List.of());
    }

    /**
     * The kept column that {@link #holding} leaves out: the first with the largest weight.
     *
     * @throws IllegalArgumentException if there are not as many weights as kept columns, or none above or below 0
     */
    public int held(double[] weights) {
        int largest = 0;
        for (int j = 1; j < weights.length; j++) {
            largest = Math.abs(weights[j]) > Math.abs(weights[largest]) ? j : largest;
        }
        if (weights.length != kept.size() || !(Math.abs(weights[largest]) > 0)) {
            throw new IllegalArgumentException(
                    "weights " + Arrays.toString(weights) + ": expected " + kept.size() + ", not all 0");
        }
        return largest;
    }

    /** How many columns are kept. */
    public int width() {
        return kept.size();
    }

    /** How many rows there are. */
    public int height() {
        return rows.length;
    }

    /** Row i; not to be changed. */
    public double[] row(int i) {
        return rows[i];
    }

    /** The sum over rows of {@code weight} times a row's products with itself, width x width. */
    public double[][] products(double[] weight) {
        int k = width();
        var sum = new double[k][k];
        for (int i = 0; i < rows.length; i++) {
            for (int a = 0; a < k; a++) {
                double weighted = weight[i] * rows[i][a];
                if (weighted != 0) {
                    for (int b = 0; b <= a; b++) {
                        sum[a][b] += weighted * rows[i][b];
                    }
                }
            }
        }
        for (int a = 0; a < k; a++) {
            for (int b = a + 1; b < k; b++) {
                sum[a][b] = sum[b][a];
            }
        }
        return sum;
    }

    /** The sum over rows of {@code times[i]} times row i. */
    public double[] sum(double[] times) {
        var sum = new double[width()];
        for (int i = 0; i < rows.length; i++) {
            Vectors.takeAway(sum, -times[i], rows[i]);
        }
        return sum;
    }
}
