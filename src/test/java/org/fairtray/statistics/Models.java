package org.fairtray.statistics;

import java.util.ArrayList;

/** Model matrices of the rows that reference tables give. */
public final class Models {
    private Models() {}

    /** Columns are named by their numbers from 0. */
    public static ModelMatrix of(double[][] rows) {
        var columns = new ArrayList<ModelMatrix.Column>();
        for (int j = 0; j < rows[0].length; j++) {
            columns.add(new ModelMatrix.Column(Integer.toString(j), column(rows, j)));
        }
        return ModelMatrix.of(columns);
    }

    private static double[] column(double[][] rows, int j) {
        return java.util.Arrays.stream(rows).mapToDouble(row -> row[j]).toArray();
    }

    public static double[] coefficients(Estimates estimates) {
        return numbers(estimates, estimates::coefficient);
    }

    public static double[] standardErrors(Estimates estimates) {
        return numbers(estimates, estimates::standardError);
    }

    private static double[] numbers(Estimates estimates, java.util.function.IntToDoubleFunction number) {
        return java.util.stream.IntStream.range(0, estimates.size())
                .mapToDouble(number)
                .toArray();
    }
}
