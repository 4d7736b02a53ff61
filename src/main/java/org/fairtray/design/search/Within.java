package org.fairtray.design.search;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.statistics.Vectors;

/**
 * The projection Q = I - P onto what is left of the units when the mean and all differences between blocks are taken off,
 * whether blocks are nested or cross.
 */
final class Within {
    private static final double NOTHING = 1e-9;

    private final double[][] projector;
    private final int dimension;

    private Within(double[][] projector, int dimension) {
        this.projector = projector;
        this.dimension = dimension;
    }

    /**
     * The projection for some groupings of n units.
     *
     * @param blocks each the number of every unit's group
     */
    static Within of(int units, List<int[]> blocks) {
        var basis = basis(units, blocks);
        var projector = new double[units][units];
        for (int i = 0; i < units; i++) {
            projector[i][i] = 1;
            for (double[] b : basis) {
                Vectors.takeAway(projector[i], b[i], b);
            }
        }
        return new Within(projector, units - basis.size());
    }

    private static List<double[]> basis(int units, List<int[]> blocks) {
        var basis = new ArrayList<double[]>();
        var all = new ArrayList<>(blocks);
        all.add(new int[units]);
        all.sort((a, b) -> Integer.compare(groups(b), groups(a)));
        for (int[] block : all) {
            for (int g = 0; g < groups(block); g++) {
                var indicator = new double[units];
                for (int i = 0; i < units; i++) {
                    indicator[i] = block[i] == g ? 1 : 0;
                }
                addWhatIsNew(basis, indicator);
            }
        }
        return basis;
    }

    private static void addWhatIsNew(List<double[]> basis, double[] indicator) {
        double before = Vectors.squaredLength(indicator);
        for (int pass = 0; pass < 2; pass++) {
            for (double[] b : basis) {
                Vectors.takeAway(indicator, Vectors.dot(b, indicator), b);
            }
        }
        double length = Vectors.squaredLength(indicator);
        if (length > NOTHING * before) {
            double scale = 1 / Math.sqrt(length);
            for (int i = 0; i < indicator.length; i++) {
                indicator[i] *= scale;
            }
            basis.add(indicator);
        }
    }

    private static int groups(int[] block) {
        int most = 0;
        for (int b : block) {
            most = Math.max(most, b + 1);
        }
        return most;
    }

    /** How many independent comparisons of units are left. */
    int dimension() {
        return dimension;
    }

    /** One entry of Q. */
    double entry(int i, int j) {
        return projector[i][j];
    }

    /** Q's column of one unit, not to be changed. */
    double[] column(int i) {
        return projector[i];
    }
}
