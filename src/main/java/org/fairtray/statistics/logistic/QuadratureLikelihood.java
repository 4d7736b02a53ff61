package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/**
 * The log-likelihood of a mixed logistic model with one grouping by adaptive Gauss-Hermite quadrature: to hold the Laplace
 * approximation against, which is the rule of one point. With f_j(v) the log-likelihood of group j's rows at standard
 * normal intercept v, less v^2/2, greatest at v^ where -f_j'' = h,
 *
 * <pre>  L_j = 1/sqrt(2 pi) integral of exp f_j(v) dv
 *      is about  1/sqrt(pi h) sum over points of w exp(x^2 + f_j(v^ + x sqrt(2/h)))</pre>
 *
 * Parameters as in {@link LaplaceLikelihood}: coefficients, then the standard deviation, of any sign. Slopes are central
 * differences.
 *
 * <p>Source: Pinheiro and Bates (1995), Approximations to the log-likelihood function in the nonlinear mixed-effects model,
 * Journal of Computational and Graphical Statistics 4, 12-35, section 2.4.
 */
final class QuadratureLikelihood implements Likelihood {
    private static final int MOST_STEPS = 100;
    private static final double NUDGE = 1e-4;

    private final FixedPart fixed;
    private final BinomialRows rows;
    private final GaussHermite rule;
    private final int[][] members;

    /**
     * The likelihood of n counts.
     *
     * @param model n rows
     * @param grouping of n rows
     */
    QuadratureLikelihood(ModelMatrix model, List<Count> counts, Grouping grouping, GaussHermite rule) {
        this.fixed = new FixedPart(model);
        this.rows = new BinomialRows(counts);
        this.rule = rule;
        this.members = members(grouping);
    }

    private static int[][] members(Grouping grouping) {
        int[] sizes = grouping.sizes();
        var members = new int[sizes.length][];
        int[] of = grouping.of();
        for (int i = of.length - 1; i >= 0; i--) {
            if (members[of[i]] == null) {
                members[of[i]] = new int[sizes[of[i]]];
            }
            members[of[i]][--sizes[of[i]]] = i;
        }
        return members;
    }

    @Override
    public int size() {
        return fixed.width() + 1;
    }

    @Override
    public double value(double[] at, double[] gradient) {
        double[] to = at.clone();
        for (int k = 0; k < at.length; k++) {
            double nudge = NUDGE * (1 + Math.abs(at[k]));
            to[k] = at[k] + nudge;
            double above = value(to);
            to[k] = at[k] - nudge;
            gradient[k] = (above - value(to)) / (2 * nudge);
            to[k] = at[k];
        }
        return value(at);
    }

    /** The log-likelihood alone. */
    double value(double[] at) {
        if (!Arrays.stream(at).allMatch(Double::isFinite)) {
            return Double.NaN;
        }
        fixed.linear(at);
        double deviation = at[at.length - 1];
        double sum = rows.binomialCoefficients();
        for (int[] group : members) {
            sum += logIntegral(group, deviation);
        }
        return sum;
    }

    private double logIntegral(int[] group, double deviation) {
        double mode = mode(group, deviation);
        double top = height(group, deviation, mode);
        double curvature = curvature(group, deviation);
        double sum = 0;
        for (int j = 0; j < rule.points(); j++) {
            double x = rule.node(j);
            double height = height(group, deviation, mode + x * Math.sqrt(2 / curvature));
            sum += rule.weight(j) * Math.exp(x * x + height - top);
        }
        return top + Math.log(sum) - Math.log(Math.PI * curvature) / 2;
    }

    /** Newton's method, a step halved while it would lower f. */
    private double mode(int[] group, double deviation) {
        double mode = 0;
        double height = height(group, deviation, mode);
        for (int count = 0; count < MOST_STEPS; count++) {
            double slope = -mode;
            for (int i : group) {
                slope += deviation * rows.residual[i];
            }
            double step = slope / curvature(group, deviation);
            double next = height(group, deviation, mode + step);
            while (next < height - 1e-12 * (1 + Math.abs(height)) && Math.abs(step) > 1e-12) {
                step /= 2;
                next = height(group, deviation, mode + step);
            }
            mode += step;
            height = next;
            if (Math.abs(step) < 1e-12 * (1 + Math.abs(mode))) {
                break;
            }
        }
        return mode;
    }

    private double height(int[] group, double deviation, double intercept) {
        double sum = -intercept * intercept / 2;
        for (int i : group) {
            sum += rows.set(i, fixed.linear(i) + deviation * intercept);
        }
        return sum;
    }

    private double curvature(int[] group, double deviation) {
        double sum = 1;
        for (int i : group) {
            sum += deviation * deviation * rows.weight[i];
        }
        return sum;
    }
}
