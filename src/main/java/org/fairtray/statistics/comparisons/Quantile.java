package org.fairtray.statistics.comparisons;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BracketingNthOrderBrentSolver;

/** Where a falling tail probability reaches a given one. */
final class Quantile {
    private Quantile() {}

    /**
     * The q above 0 with upper(q) = 1 - confidence, to 1e-10 of itself.
     *
     * <p>Source: Brent (1973), Algorithms for Minimization without Derivatives, chapter 4, as Commons Math has it.
     *
     * @throws IllegalArgumentException unless confidence is in (0, 1)
     */
    static double of(DoubleUnaryOperator upper, double confidence) {
        if (!(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException("confidence " + confidence + ": expected a number between 0 and 1");
        }
        double high = 4;
        while (upper.applyAsDouble(high) > 1 - confidence) {
            high *= 2;
        }
        double low = high > 4 ? high / 2 : 0;
        var solver = new BracketingNthOrderBrentSolver(1e-10, 1e-12, 5);
        return solver.solve(200, q -> distance(upper.applyAsDouble(q), 1 - confidence), low, high);
    }

    /** On the scale of logarithms, on which tails are nearly straight. */
    private static double distance(double p, double alpha) {
        return Math.log(Math.max(p, 1e-300) / alpha);
    }
}
