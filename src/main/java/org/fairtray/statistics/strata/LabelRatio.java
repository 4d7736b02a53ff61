package org.fairtray.statistics.strata;

import java.util.Arrays;

/**
 * The F of one term that has a stratum to itself, for any labelling of the stratum's units with its levels, from the sums
 * by label: every level comes equally often, and equally often in every group of the coarser strata.
 *
 * <p>F = (S/d) / ((T − S)/r), with S the sum over labels of (sum by label)²/(units by label) and T the sum of squares of
 * the values' part in the stratum.
 *
 * <p>Source: Fisher (1935), The Design of Experiments, sections 33-35 (the analysis of a Latin square).
 */
public final class LabelRatio {
    private final double[] values;
    private final double total;
    private final double[] sums;
    private final int residualDf;

    /**
     * @param values the part in the stratum, one for each unit; all units have the same size
     * @param labels how many labels there are, 2 or more
     * @param residualDf what is left over, 1 or more
     */
    public LabelRatio(double[] values, int labels, int residualDf) {
        this.values = values.clone();
        this.sums = new double[labels];
        this.residualDf = residualDf;
        double squares = 0;
        for (double value : values) {
            squares += value * value;
        }
        this.total = squares;
    }

    /**
     * Whether the ratio is a given one or more; one that differs from it by rounding alone is as large.
     *
     * @param labels from 0, one for each unit, each equally often
     */
    public boolean reaches(int[] labels, double ratio) {
        Arrays.fill(sums, 0);
        for (int u = 0; u < labels.length; u++) {
            sums[labels[u]] += values[u];
        }
        double own = 0;
        for (double sum : sums) {
            own += sum * sum;
        }
        own *= (double) sums.length / labels.length;
        return VarianceRatio.reaches(own, total - own, total, ratio, sums.length - 1, residualDf);
    }
}
