package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;

/**
 * Whether some combination of the columns separates the rows in which everything succeeded from those in which nothing
 * did. Then the likelihood has no maximum: it rises for ever along that combination, and some estimates are infinite.
 *
 * <p>Found as a linear programme: among b with every |b_j| at most 1, with x'b = 0 where some but not all succeeded,
 * x'b at most 0 where none did and at least 0 where all did, make the sum of |x'b| as large as it can be. The data are
 * separated where that is above 0.
 *
 * <p>Source: Konis (2007), Linear programming algorithms for detecting separated data in binary logistic regression
 * models, DPhil thesis, University of Oxford, section 4.3.
 */
public final class Separation {
    private static final double ROUNDING = 1e-7;

    private Separation() {}

    /**
     * The rows that a separating direction pushes towards 0 or 100 %.
     *
     * @param model n rows
     * @param counts n counts
     * @return their numbers; empty where every estimate is finite
     */
    public static List<Integer> rows(ModelMatrix model, List<Count> counts) {
        var kinds = kinds(model, counts);
        if (kinds.values().stream().allMatch(count -> !count.allOrNone())) {
            return List.of();
        }
        return direction(kinds, model.width())
                .map(b -> IntStream.range(0, model.height())
                        .filter(i -> Math.abs(Vectors.dot(model.row(i), b)) > ROUNDING)
                        .boxed()
                        .toList())
                .orElse(List.of());
    }

    /** Rows that are alike are one row with their counts added up. */
    private static Map<List<Double>, Count> kinds(ModelMatrix model, List<Count> counts) {
        var kinds = new LinkedHashMap<List<Double>, Count>();
        for (int i = 0; i < model.height(); i++) {
            var row = java.util.Arrays.stream(model.row(i)).boxed().toList();
            kinds.merge(
                    row, counts.get(i), (a, b) -> new Count(a.successes() + b.successes(), a.trials() + b.trials()));
        }
        return kinds;
    }

    private static Optional<double[]> direction(Map<List<Double>, Count> kinds, int width) {
        var constraints = new ArrayList<LinearConstraint>();
        var objective = new double[width];
        kinds.forEach((row, count) -> {
            double[] x = row.stream().mapToDouble(Double::doubleValue).toArray();
            if (!count.allOrNone()) {
                constraints.add(new LinearConstraint(x, Relationship.EQ, 0));
            } else {
                double sign = count.successes() == 0 ? -1 : 1;
                var towards = java.util.Arrays.stream(x).map(v -> sign * v).toArray();
                constraints.add(new LinearConstraint(towards, Relationship.GEQ, 0));
                Vectors.takeAway(objective, -1, towards);
            }
        });
        for (int j = 0; j < width; j++) {
            var unit = new double[width];
            unit[j] = 1;
            constraints.add(new LinearConstraint(unit, Relationship.LEQ, 1));
            constraints.add(new LinearConstraint(unit, Relationship.GEQ, -1));
        }
        var best = new SimplexSolver()
                .optimize(
                        new MaxIter(100_000),
                        new LinearObjectiveFunction(objective, 0),
                        new LinearConstraintSet(constraints),
                        GoalType.MAXIMIZE,
                        new NonNegativeConstraint(false));
        return best.getValue() > ROUNDING ? Optional.of(best.getPoint()) : Optional.empty();
    }
}
