package org.fairtray.design.search;

/** What a layout is compared with: as many units without blocks, where every candidate of a kind comes equally often. */
final class Reference {
    private Reference() {}

    /** The sum of the variances of the columns of interest in it; units need not divide evenly. */
    static double variance(Problem problem) {
        int p = problem.columns();
        var information = new double[p][p];
        var mean = new double[p];
        for (int u = 0; u < problem.units(); u++) {
            add(problem.rows()[problem.kind()[u]], information, mean);
        }
        for (int i = 0; i < p; i++) {
            for (int j = 0; j < p; j++) {
                information[i][j] -= mean[i] * mean[j] / problem.units();
            }
        }
        return Information.sumOfVariances(information, problem.ofInterest()).orElse(0.0);
    }

    private static void add(double[][] rows, double[][] information, double[] mean) {
        int made = 0;
        for (double[] row : rows) {
            made += row == null ? 0 : 1;
        }
        for (double[] row : rows) {
            if (row != null) {
                for (int i = 0; i < row.length; i++) {
                    mean[i] += row[i] / made;
                    for (int j = 0; j < row.length; j++) {
                        information[i][j] += row[i] * row[j] / made;
                    }
                }
            }
        }
    }
}
