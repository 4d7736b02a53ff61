package org.fairtray.statistics.linear;

import java.util.Optional;

/**
 * The F distribution that fits a Wald statistic with estimated variances: its denominator degrees of freedom m and the
 * factor lambda by which the statistic is multiplied, chosen so that mean and variance agree. With l rows and the moments
 * A_1, A_2,
 *
 * <pre>
 *   B = (A_1 + 6 A_2) / 2l        g = ((l + 1) A_1 - (l + 4) A_2) / ((l + 2) A_2)
 *   c_1 = g / (3l + 2(1 - g))     c_2 = (l - g) / (3l + 2(1 - g))     c_3 = (l + 2 - g) / (3l + 2(1 - g))
 *   E = 1 / (1 - A_2 / l)         V = 2/l (1 + c_1 B) / ((1 - c_2 B)^2 (1 - c_3 B))
 *   rho = V / 2E^2                m = 4 + (l + 2) / (l rho - 1)       lambda = m / (E (m - 2))
 * </pre>
 *
 * For one row, and wherever both moments are those of a single stratum, m is Satterthwaite's and lambda is 1.
 *
 * <p>Source: Kenward and Roger (1997), Biometrics 53, 983-997, section 3.
 *
 * @param scale lambda, above 0
 * @param denominatorDf m, above 0
 */
record SmallSample(double scale, double denominatorDf) {
    /** Where m is as near as this to 2, or two factors to 0, they stand in a ratio of 0 to 0 whose limit is 1. */
    private static final double NEAR = 1e-10;

    /**
     * How much the tested combinations vary with the variances.
     *
     * @param ofTraces A_1, the sum of W_ij times the traces of the changes with variances i and j
     * @param ofProducts A_2, the sum of W_ij times the trace of their product
     */
    record Moments(double ofTraces, double ofProducts) {}

    /** Empty where m or lambda comes out at 0 or below, or without a value */
    static Optional<SmallSample> of(Moments moments, int rows) {
        double l = rows;
        double a1 = moments.ofTraces();
        double a2 = moments.ofProducts();
        if (rows == 1) {
            return valid(1, 2 / a2);
        }
        double b = (a1 + 6 * a2) / (2 * l);
        double g = ((l + 1) * a1 - (l + 4) * a2) / ((l + 2) * a2);
        double below = 3 * l + 2 * (1 - g);
        double inverseOfMean = 1 - a2 / l;
        double squared = 1 - b * (l - g) / below;
        double ratio = Math.abs(squared) < NEAR && Math.abs(inverseOfMean) < NEAR ? 1 : inverseOfMean / squared;
        double rho = ratio * ratio / l * (1 + b * g / below) / (1 - b * (l + 2 - g) / below);
        double m = 4 + (l + 2) / (l * rho - 1);
        return valid(Math.abs(m - 2) < NEAR ? 1 : m * inverseOfMean / (m - 2), m);
    }

    private static Optional<SmallSample> valid(double scale, double denominatorDf) {
        boolean usable = scale > 0 && denominatorDf > 0 && scale * denominatorDf < Double.POSITIVE_INFINITY;
        return usable ? Optional.of(new SmallSample(scale, denominatorDf)) : Optional.empty();
    }
}
