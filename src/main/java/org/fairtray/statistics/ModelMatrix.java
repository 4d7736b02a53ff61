package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.List;

/**
 * The columns of a regression, each with its name, with redundant ones left out: a column that is a combination of those
 * before it. Immutable.
 */
public final class ModelMatrix {
    private final List<String> names;
    private final List<String> redundant;
    private final double[][] rows;

    private ModelMatrix(List<String> names, List<String> redundant, double[][] rows) {
        this.names = names;
        this.redundant = redundant;
        this.rows = rows;
    }

    /** A named column of n numbers. */
    public record Column(String name, List<Double> values) {
        public Column {
            values = List.copyOf(values);
        }
    }

    /**
     * Keeps the columns that add something to those before them.
     *
     * @param columns one or more, of n numbers each
     */
    public static ModelMatrix of(List<Column> columns) {
        var arrays = columns.stream()
                .map(c -> c.values().stream().mapToDouble(Double::doubleValue).toArray())
                .toList();
        var kept = Span.independent(arrays);
        var rows = new double[arrays.get(0).length][kept.size()];
        for (int j = 0; j < kept.size(); j++) {
            for (int i = 0; i < rows.length; i++) {
                rows[i][j] = arrays.get(kept.get(j))[i];
            }
        }
        var redundant = new ArrayList<String>();
        for (int j = 0; j < columns.size(); j++) {
            if (!kept.contains(j)) {
                redundant.add(columns.get(j).name());
            }
        }
        return new ModelMatrix(kept.stream().map(j -> columns.get(j).name()).toList(), List.copyOf(redundant), rows);
    }

    /** Names of the columns kept, in order. */
    public List<String> names() {
        return names;
    }

    /** Names of the columns left out. */
    public List<String> redundant() {
        return redundant;
    }

    /** How many columns are kept. */
    public int width() {
        return names.size();
    }

    /** How many rows there are. */
    public int height() {
        return rows.length;
    }

    /** Row i; not to be changed. */
    double[] row(int i) {
        return rows[i];
    }

    /** The sum over rows of {@code weight} times a row's products with itself, width x width. */
    double[][] products(double[] weight) {
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
    double[] sum(double[] times) {
        var sum = new double[width()];
        for (int i = 0; i < rows.length; i++) {
            Vectors.takeAway(sum, -times[i], rows[i]);
        }
        return sum;
    }
}
