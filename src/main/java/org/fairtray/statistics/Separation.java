package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.Arrays;
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
 * <p>Found as a linear programme: among bounded b with x'b = 0 where some but not all succeeded,
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
            var row = Arrays.stream(model.row(i)).boxed().toList();
            kinds.merge(
                    row, counts.get(i), (a, b) -> new Count(a.successes() + b.successes(), a.trials() + b.trials()));
        }
        return kinds;
    }

    /**
     * The b that a linear programme finds. Rows in which some but not all succeeded leave only the b at right angles to
     * them, so the search is among the combinations of an orthonormal basis of these, which are few or none.
     */
    private static Optional<double[]> direction(Map<List<Double>, Count> kinds, int width) {
        var mixed = new ArrayList<double[]>();
        var towards = new ArrayList<double[]>();
        kinds.forEach((row, count) -> {
            double[] x = row.stream().mapToDouble(Double::doubleValue).toArray();
            if (count.allOrNone()) {
                double sign = count.successes() == 0 ? -1 : 1;
                towards.add(Arrays.stream(x).map(v -> sign * v).toArray());
            } else {
                mixed.add(x);
            }
        });
        var taken = Span.empty().with(mixed);
        var free = taken.with(units(width)).basisFrom(taken.dimension());
        return free.isEmpty() ? Optional.empty() : best(towards, free).map(z -> combine(free, z));
    }

    private static List<double[]> units(int width) {
        return IntStream.range(0, width)
                .mapToObj(j -> {
                    var unit = new double[width];
                    unit[j] = 1;
                    return unit;
                })
                .toList();
    }

    private static Optional<double[]> best(List<double[]> towards, List<double[]> free) {
        var constraints = new ArrayList<LinearConstraint>();
        var objective = new double[free.size()];
        for (double[] x : towards) {
            double[] along = free.stream().mapToDouble(f -> Vectors.dot(f, x)).toArray();
            constraints.add(new LinearConstraint(along, Relationship.GEQ, 0));
            Vectors.takeAway(objective, -1, along);
        }
        for (double[] unit : units(free.size())) {
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

    private static double[] combine(List<double[]> vectors, double[] times) {
        var sum = new double[vectors.get(0).length];
        for (int i = 0; i < times.length; i++) {
            Vectors.takeAway(sum, -times[i], vectors.get(i));
        }
        return sum;
    }
}
