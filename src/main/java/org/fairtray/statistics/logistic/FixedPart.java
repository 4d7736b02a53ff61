package org.fairtray.statistics.logistic;

import org.fairtray.statistics.ModelMatrix;

/** The fixed part x_i'b of n rows, in one array so that it is worked out fast. A workspace for one thread. */
final class FixedPart {
    private final int width;
    private final double[] entries;
    private final double[] linear;
    private final ModelMatrix model;

    FixedPart(ModelMatrix model) {
        this.model = model;
        this.width = model.width();
        this.linear = new double[model.height()];
        this.entries = new double[model.height() * width];
        for (int i = 0; i < linear.length; i++) {
            System.arraycopy(model.row(i), 0, entries, i * width, width);
        }
    }

    int width() {
        return width;
    }

    /** Works out x_i'b for all rows; b are the first numbers of {@code at}. */
    void linear(double[] at) {
        for (int i = 0, next = 0; i < linear.length; i++) {
            double sum = 0;
            for (int j = 0; j < width; j++) {
                sum += entries[next++] * at[j];
            }
            linear[i] = sum;
        }
    }

    /** x_i'b of row i. */
    double linear(int i) {
        return linear[i];
    }

    /** Adds {@code times} x_i to the first numbers of {@code sums}. */
    void addRow(int i, double times, double[] sums) {
        int from = i * width;
        for (int j = 0; j < width; j++) {
            sums[j] += times * entries[from + j];
        }
    }

    /** Column j with each row times its weight. */
    double[] column(int j, double[] weight) {
        var column = new double[linear.length];
        for (int i = 0; i < column.length; i++) {
            column[i] = weight[i] * entries[i * width + j];
        }
        return column;
    }

    /** X'WX, width x width. */
    double[][] products(double[] weight) {
        return model.products(weight);
    }
}
