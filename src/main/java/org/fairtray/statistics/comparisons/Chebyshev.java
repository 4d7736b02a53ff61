package org.fairtray.statistics.comparisons;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/**
 * A smooth function on [0, far] as a sum of Chebyshev polynomials, for functions that take long to work out.
 *
 * <p>Source: Press et al. (2007), Numerical Recipes, 3rd ed., section 5.8 (coefficients, Clenshaw's recurrence).
 */
final class Chebyshev {
    private static final int POINTS = 128;

    /** Coefficients below are rounding. */
    private static final double ROUNDING = 1e-16;

    private final double[] coefficients;
    private final double far;

    private Chebyshev(double[] coefficients, double far) {
        this.coefficients = coefficients;
        this.far = far;
    }

    static Chebyshev of(DoubleUnaryOperator function, double far) {
        var values = new double[POINTS];
        for (int k = 0; k < POINTS; k++) {
            values[k] = function.applyAsDouble(far / 2 * (1 + Math.cos(Math.PI * (k + 0.5) / POINTS)));
        }
        var coefficients = new double[POINTS];
        for (int j = 0; j < POINTS; j++) {
            for (int k = 0; k < POINTS; k++) {
                coefficients[j] += 2.0 / POINTS * values[k] * Math.cos(Math.PI * j * (k + 0.5) / POINTS);
            }
        }
        coefficients[0] /= 2;
        int length = POINTS;
        while (length > 1 && Math.abs(coefficients[length - 1]) < ROUNDING) {
            length--;
        }
        return new Chebyshev(Arrays.copyOf(coefficients, length), far);
    }

    /** The function at x; 0 beyond the far end. */
    double at(double x) {
        if (x >= far) {
            return 0;
        }
        double y = 2 * x / far - 1;
        double next = 0;
        double afterNext = 0;
        for (int j = coefficients.length - 1; j > 0; j--) {
            double here = 2 * y * next - afterNext + coefficients[j];
            afterNext = next;
            next = here;
        }
        return y * next - afterNext + coefficients[0];
    }
}
