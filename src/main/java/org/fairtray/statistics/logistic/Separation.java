package org.fairtray.statistics.logistic;

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
import org.fairtray.statistics.Count;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Span;
import org.fairtray.statistics.Vectors;

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
 * models, DPhil thesis, University of Oxford, section 4.3; the cap at 1, by which all rows are found at once, is our own.
 */
public final class Separation {
    /** In the best direction a row is pushed by 1 or not at all; between the two lies only rounding. */
    private static final double HALFWAY = 0.5;

    /** What is left of a row of 0s and 1s that lies among the mixed ones. */
    private static final double ROUNDING = 1e-9;

    /** Rates of climbs that end by rounding alone are nearer to 0 or 1 than this. */
    private static final double AT_AN_END = 1e-7;

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
        if (kinds.values().stream().noneMatch(Count::allOrNone)) {
            return List.of();
        }
        double[] direction = direction(kinds, model.width());
        return IntStream.range(0, model.height())
                .filter(i -> Math.abs(Vectors.dot(model.row(i), direction)) > HALFWAY)
                .boxed()
                .toList();
    }

    /**
     * Whether a climb that ended at these rates ran along a separating direction, where it ends by rounding alone. The
     * programme is solved only if a rate lies so near to an end that it may be so.
     *
     * @param rates n fitted rates
     */
    public static boolean reached(ModelMatrix model, List<Count> counts, double[] rates) {
        return IntStream.range(0, rates.length)
                        .anyMatch(i -> counts.get(i).allOrNone() && Math.min(rates[i], 1 - rates[i]) < AT_AN_END)
                && !rows(model, counts).isEmpty();
    }

    /** Rows that are alike are one row with their counts added up. */
    private static Map<List<Double>, Count> kinds(ModelMatrix model, List<Count> counts) {
        var kinds = new LinkedHashMap<List<Double>, Count>();
        for (int i = 0; i < model.height(); i++) {
            var row = Arrays.stream(model.row(i)).boxed().toList();
            kinds.merge(row, counts.get(i), Count::plus);
        }
        return kinds;
    }

    /**
     * The best b. Rows in which some but not all succeeded leave only the b at right angles to them, so the search is
     * among the combinations of an orthonormal basis of these, which are few or none.
     */
    private static double[] direction(Map<List<Double>, Count> kinds, int width) {
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
        return combine(width, free, free.isEmpty() ? new double[0] : best(towards, free));
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

    /** How much of each free vector is in the best b: the first variables; the rest are the pushes, one a row. */
    private static double[] best(List<double[]> towards, List<double[]> free) {
        int size = free.size() + towards.size();
        var constraints = new ArrayList<LinearConstraint>();
        for (int i = 0; i < towards.size(); i++) {
            var pushed = new double[size];
            pushed[free.size() + i] = 1;
            constraints.add(new LinearConstraint(pushed, Relationship.LEQ, 1));
            constraints.add(new LinearConstraint(pushed, Relationship.GEQ, 0));
            var along = new double[size];
            along[free.size() + i] = -1;
            for (int f = 0; f < free.size(); f++) {
                double component = Vectors.dot(free.get(f), towards.get(i));
                along[f] = Math.abs(component) < ROUNDING ? 0 : component;
            }
            constraints.add(new LinearConstraint(along, Relationship.GEQ, 0));
        }
        var objective = new double[size];
        Arrays.fill(objective, free.size(), size, 1);
        return new SimplexSolver()
                .optimize(
                        new MaxIter(100_000),
                        new LinearObjectiveFunction(objective, 0),
                        new LinearConstraintSet(constraints),
                        GoalType.MAXIMIZE,
                        new NonNegativeConstraint(false))
                .getPoint();
    }

    private static double[] combine(int width, List<double[]> vectors, double[] times) {
        var sum = new double[width];
        for (int i = 0; i < vectors.size(); i++) {
            Vectors.takeAway(sum, -times[i], vectors.get(i));
        }
        return sum;
    }
}
