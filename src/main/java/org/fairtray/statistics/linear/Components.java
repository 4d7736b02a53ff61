package org.fairtray.statistics.linear;

import java.util.List;
import org.fairtray.statistics.Grouping;

/**
 * What the variance of n values is made of: one matrix V_k = Z_k Z_k' for each grouping, which is 1 where two values share
 * a group and 0 elsewhere, and last the residual's, W^-1 with the weights on its diagonal.
 *
 * @param groupings any number, of n things each
 * @param weights n numbers above 0; not to be changed
 */
record Components(List<Grouping> groupings, double[] weights) {

    /** How many there are, with the residual's. */
    int count() {
        return groupings.size() + 1;
    }

    /** The number of the residual's. */
    int residual() {
        return groupings.size();
    }

    /** V_k times a vector. */
    double[] times(int k, double[] vector) {
        return k == residual() ? overWeights(vector) : shared(groupings.get(k), vector);
    }

    private double[] overWeights(double[] vector) {
        var product = new double[vector.length];
        for (int i = 0; i < vector.length; i++) {
            product[i] = vector[i] / weights[i];
        }
        return product;
    }

    private static double[] shared(Grouping grouping, double[] vector) {
        return spread(grouping, grouping.sums(vector));
    }

    /** Each thing's value is that of its group. */
    static double[] spread(Grouping grouping, double[] byGroup) {
        int[] of = grouping.of();
        var values = new double[of.length];
        for (int i = 0; i < of.length; i++) {
            values[i] = byGroup[of[i]];
        }
        return values;
    }
}
