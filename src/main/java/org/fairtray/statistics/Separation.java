package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
 * <p>Found as a linear programme: among b with x'b = 0 where some but not all succeeded, x'b at most 0 where none did and
 * at least 0 where all did, make the sum of min(|x'b|, 1) as large as it can be. The data are separated where that is
 * above 0. Separating directions may be added up and stretched, so the best of them pushes every row by 1 that any of
 * them pushes at all.
 *
 * <p>Source: Konis (2007), Linear programming algorithms for detecting separated data in binary logistic regression
 * models, DPhil thesis, University of Oxford, section 4.3; the cap at 1, by which all rows
 * are found at once, is our own.
 */
public final class Separation {
    /** In the best direction a row is pushed by 1 or not at all; between the two lies only rounding. */
    private static final double HALFWAY = 0.5;

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
        double[] direction = direction(kinds, model.width());
        return IntStream.range(0, model.height())
                .filter(i -> Math.abs(Vectors.dot(model.row(i), direction)) > HALFWAY)
                .boxed()
                .toList();
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

    /** The best b: the first {@code width} variables of the programme; each kind that can be pushed has one more. */
    private static double[] direction(Map<List<Double>, Count> kinds, int width) {
        int pushed = (int) kinds.values().stream().filter(Count::allOrNone).count();
        var constraints = new ArrayList<LinearConstraint>();
        var objective = new double[width + pushed];
        Arrays.fill(objective, width, width + pushed, 1);
        int next = width;
        for (var kind : kinds.entrySet()) {
            var along = new double[width + pushed];
            double sign = kind.getValue().successes() == 0 ? -1 : 1;
            for (int j = 0; j < width; j++) {
                along[j] = sign * kind.getKey().get(j);
            }
            if (kind.getValue().allOrNone()) {
                var push = new double[width + pushed];
                push[next] = 1;
                along[next] = -1;
                constraints.add(new LinearConstraint(push, Relationship.LEQ, 1));
                constraints.add(new LinearConstraint(push, Relationship.GEQ, 0));
                constraints.add(new LinearConstraint(along, Relationship.GEQ, 0));
                next++;
            } else {
                constraints.add(new LinearConstraint(along, Relationship.EQ, 0));
            }
        }
        double[] best = new SimplexSolver()
                .optimize(
                        new MaxIter(100_000),
                        new LinearObjectiveFunction(objective, 0),
                        new LinearConstraintSet(constraints),
                        GoalType.MAXIMIZE,
                        new NonNegativeConstraint(false))
                .getPoint();
        return Arrays.copyOf(best, width);
    }
}
