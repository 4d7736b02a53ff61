package org.fairtray.statistics.comparisons;

import java.util.Arrays;
import org.fairtray.statistics.Vectors;

/**
 * Linear, quadratic and further components of the means at k numeric levels, which need not be evenly spaced nor rest on
 * equally many values. By Emerson's recurrence, with sums over levels weighted by w,
 *
 * <pre>
 *   P_0 = 1,   P_(j+1) = (x - a_j) P_j - b_j P_(j-1),
 *   a_j = sum of w x P_j^2 / sum of w P_j^2,   b_j = sum of w P_j^2 / sum of w P_(j-1)^2
 * </pre>
 *
 * each P_j begins with x^j and is orthogonal to those before.
 *
 * <p>Source: Emerson (1968), Biometrics 24, 695-701. Immutable.
 */
public final class OrthogonalPolynomials {
    private final double[] weights;
    private final double[][] values;

    private OrthogonalPolynomials(double[] weights, double[][] values) {
        this.weights = weights;
        this.values = values;
    }

    /** Levels whose means weigh alike. */
    public static OrthogonalPolynomials of(double... levels) {
        var ones = new double[levels.length];
        Arrays.fill(ones, 1);
        return weighted(levels, ones);
    }

    /**
     * Levels whose means have weights, such as the numbers of values they rest on.
     *
     * @param levels k finite numbers, 2 or more, no two the same
     * @param weights k numbers above 0
     */
    public static OrthogonalPolynomials weighted(double[] levels, double[] weights) {
        if (levels.length < 2
                || levels.length != weights.length
                || Arrays.stream(levels).distinct().count() < levels.length
                || !Arrays.stream(levels).allMatch(Double::isFinite)
                || !Arrays.stream(weights).allMatch(w -> w > 0)) {
            throw new IllegalArgumentException("levels " + Arrays.toString(levels) + ", weights "
                    + Arrays.toString(weights) + ": expected two or more different levels, weights above 0");
        }
        return new OrthogonalPolynomials(weights.clone(), recurrence(levels, weights));
    }

    private static double[][] recurrence(double[] levels, double[] weights) {
        int k = levels.length;
        var values = new double[k][k];
        Arrays.fill(values[0], 1);
        for (int j = 0; j + 1 < k; j++) {
            double square = square(values[j], weights);
            double centre = 0;
            for (int i = 0; i < k; i++) {
                centre += weights[i] * levels[i] * values[j][i] * values[j][i] / square;
            }
            for (int i = 0; i < k; i++) {
                values[j + 1][i] = (levels[i] - centre) * values[j][i];
            }
            if (j > 0) {
                Vectors.takeAway(values[j + 1], square / square(values[j - 1], weights), values[j - 1]);
            }
        }
        return values;
    }

    private static double square(double[] values, double[] weights) {
        double sum = 0;
        for (int i = 0; i < values.length; i++) {
            sum += weights[i] * values[i] * values[i];
        }
        return sum;
    }

    /** The highest degree there is: levels less one. */
    public int highest() {
        return values.length - 1;
    }

    /** P_j at each level, in the unit of the levels to the power of the degree. */
    public double[] values(int degree) {
        require(degree);
        return values[degree].clone();
    }

    /** P_j with sum of w P_j^2 = 1, without unit. */
    public double[] normalised(int degree) {
        double[] own = values(degree);
        double length = Math.sqrt(square(own, weights));
        return Arrays.stream(own).map(v -> v / length).toArray();
    }

    /**
     * The weights that make of the means the coefficient of x^j in their weighted least squares polynomial of degree j,
     * w_i P_j(x_i) / sum of w P_j^2: change per unit for degree 1.
     */
    public double[] contrast(int degree) {
        double[] own = values(degree);
        double square = square(own, weights);
        for (int i = 0; i < own.length; i++) {
            own[i] *= weights[i] / square;
        }
        return own;
    }

    private void require(int degree) {
        if (degree < 1 || degree > highest()) {
            throw new IllegalArgumentException("degree " + degree + ": expected 1 to " + highest());
        }
    }
}
