package org.fairtray.statistics.pooling;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.exception.NoBracketingException;
import org.apache.commons.math3.exception.TooManyEvaluationsException;

/**
 * Where a function crosses 0, to the last digits.
 *
 * <p>Source: Brent (1973), Algorithms for Minimization without Derivatives, chapter 4.
 */
final class Root {
    private static final double NEAR = 1e-14;
    private static final int MOST_STEPS = 500;

    private Root() {}

    /** The place between two, low 0 or more and high above it, of which one is not above and one not below 0. */
    static OptionalDouble of(DoubleUnaryOperator function, double low, double high) {
        try {
            // a value is small or large by the unit of the estimates: only 0 itself counts as 0
            var solver = new BrentSolver(NEAR, NEAR * NEAR * high, 0);
            return OptionalDouble.of(solver.solve(MOST_STEPS, function::applyAsDouble, low, high));
        } catch (NoBracketingException | TooManyEvaluationsException none) {
            return OptionalDouble.empty();
        }
    }
}
