package org.fairtray.design.search;

import java.util.Arrays;
import java.util.Objects;
import org.fairtray.statistics.Vectors;

/**
 * What a layout is compared with: as many units without blocks, where every candidate of a kind comes equally often, the
 * differences between kinds set aside.
 */
final class Reference {
    private Reference() {}

    /** The sum of the variances of the columns of interest in it; units need not divide evenly. */
    static double variance(Problem problem) {
        int p = problem.columns();
        var information = new double[p][p];
        for (double[][] rows : problem.rows()) {
            int units = 0;
            for (int kind : problem.kind()) {
                units += problem.rows()[kind] == rows ? 1 : 0;
            }
            add(rows, units, information);
        }
        return Information.sumOfVariances(information, problem.ofInterest()).orElse(0.0);
    }

    private static void add(double[][] rows, int units, double[][] information) {
        var made = Arrays.stream(rows).filter(Objects::nonNull).toList();
        double weight = (double) units / made.size();
        var sum = new double[information.length];
        for (double[] row : made) {
            for (int i = 0; i < row.length; i++) {
                sum[i] += row[i];
                Vectors.takeAway(information[i], -weight * row[i], row);
            }
        }
        for (int i = 0; i < sum.length; i++) {
            Vectors.takeAway(information[i], weight * sum[i] / made.size(), sum);
        }
    }
}
