package org.fairtray.statistics.logistic;

import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.SparseCholesky;
import org.fairtray.statistics.Vectors;

/**
 * The log-likelihood of a mixed logistic model by the Laplace approximation, with its exact slopes. Parameters are the
 * coefficients b, then the standard deviation s of each grouping. Intercepts are s times v, with v standard normal; so
 * the likelihood is even in each s, smooth through 0, and s may take any sign.
 *
 * <pre>
 *   eta_i = x_i'b + a_i'v,       a_i: s of grouping g in the column of row i's intercept of g
 *   f(v)  = sum of y_i eta_i - m_i log(1 + exp eta_i), less v'v/2,   greatest at v^, where A'(y - mp) = v
 *   H     = I + A'WA,  W = diag(m p (1 - p))
 *   log L = f(v^) - log(det H)/2 + sum of log C(m_i, y_i)
 * </pre>
 *
 * <p>With h_i = a_i'H^-1 a_i, c_i = w_i (1 - 2 p_i) h_i / 2, t = H^-1 A'c (how the determinant changes as v^ moves) and
 * k_i = y_i - m_i p_i - c_i + w_i a_i't, the slopes are
 *
 * <pre>
 *   by b_j: sum of x_ij k_i
 *   by s_g: sum of v^_ig k_i - w_i (H^-1 a_i)_ig - (y_i - m_i p_i) t_ig,   ig: the column of row i's intercept of g
 * </pre>
 *
 * where the entries of H^-1 that are asked for all lie in the pattern of its factor.
 *
 * <p>Sources: Breslow and Clayton (1993), Approximate inference in generalized linear mixed models, Journal of the
 * American Statistical Association 88, 9-25, section 2.1 (the approximation, here without dropping the change of W);
 * Skaug and Fournier (2006), Automatic approximation of the marginal likelihood in non-Gaussian hierarchical models,
 * Computational Statistics and Data Analysis 51, 699-709, section 3 (slopes through the modes); worked out here.
 *
 * <p>A workspace: modes are kept as the start of the next search. For one thread.
 */
final class LaplaceLikelihood implements Likelihood {
    private static final int MOST_STEPS = 100;
    private static final int MOST_HALVINGS = 30;

    /** Twice what a step promises to gain in f, by intercept. A step of this size squares what is left, so it ends the search. */
    private static final double NEARLY_THERE = 1e-12;

    private static final double THERE = 1e-24;

    private final RandomIntercepts structure;
    private final FixedPart fixed;
    private final SparseCholesky factor;
    private final double[] deviations;
    private final double[] modes;
    private final double[] step;
    private final double[] diagonal;
    private final double[] below;
    private final double[] logOdds;
    private BinomialRows rows;
    private final double[] influence;
    private final double[] inverseTimesRow;

    /**
     * A workspace for one model.
     *
     * @param model n rows
     * @param structure of n rows
     */
    LaplaceLikelihood(ModelMatrix model, RandomIntercepts structure, List<Count> counts) {
        this(model, structure);
        take(counts);
    }

    /** The same before any counts are there; {@link #take} has to come first. */
    LaplaceLikelihood(ModelMatrix model, RandomIntercepts structure) {
        this.structure = structure;
        this.fixed = new FixedPart(model);
        this.factor = new SparseCholesky(structure.pattern());
        this.deviations = new double[structure.groupings()];
        this.modes = new double[structure.total()];
        this.step = new double[structure.total()];
        this.diagonal = new double[structure.total()];
        this.below = new double[structure.pattern().entries()];
        this.logOdds = new double[model.height()];
        this.influence = new double[model.height()];
        this.inverseTimesRow = new double[model.height() * structure.groupings()];
    }

    /** Takes counts, one for each row; what comes out is as if there had been none before. */
    void take(List<Count> counts) {
        rows = new BinomialRows(counts);
        Arrays.fill(modes, 0);
    }

    @Override
    public int size() {
        return fixed.width() + deviations.length;
    }

    /** The number of the first standard deviation among the parameters. */
    int firstDeviation() {
        return fixed.width();
    }

    @Override
    public double value(double[] at, double[] gradient) {
        for (double parameter : at) {
            if (!Double.isFinite(parameter)) {
                return Double.NaN;
            }
        }
        fixed.linear(at);
        System.arraycopy(at, fixed.width(), deviations, 0, deviations.length);
        double height = findModes();
        if (!Double.isFinite(height)) {
            Arrays.fill(modes, 0);
            return Double.NaN;
        }
        double value = height - factor.logDeterminant() / 2 + rows.binomialCoefficients();
        slopes(gradient);
        return value;
    }

    /** The modes of grouping g at the last parameters, on the log-odds scale: s times v^.  */
    double[] intercepts(int g, int groups) {
        var intercepts = Arrays.copyOfRange(modes, structure.first(g), structure.first(g) + groups);
        for (int j = 0; j < groups; j++) {
            intercepts[j] *= deviations[g];
        }
        return intercepts;
    }

    /** Newton's method on f, a step halved while it would lower f; f is concave, so it arrives. NaN where numbers overflow. */
    private double findModes() {
        double height = height();
        for (int count = 0; count < MOST_STEPS; count++) {
            if (!factorInformation()) {
                return Double.NaN;
            }
            double promised = newStep();
            if (promised < THERE) {
                return height;
            }
            height = climb(height);
            if (promised < NEARLY_THERE * (1 + modes.length)) {
                break;
            }
        }
        return factorInformation() ? height : Double.NaN;
    }

    /** Solves for the step in {@link #step}; twice the gain it promises. */
    private double newStep() {
        for (int j = 0; j < step.length; j++) {
            step[j] = -modes[j];
        }
        addToIntercepts(rows.residual, step);
        // diagonal is free until the next information: it keeps the slopes that the step is held against
        System.arraycopy(step, 0, diagonal, 0, step.length);
        factor.solveInPlace(step);
        double promised = 0;
        for (int j = 0; j < step.length; j++) {
            promised += diagonal[j] * step[j];
        }
        return promised;
    }

    private double climb(double height) {
        double allowed = height - 1e-12 * (1 + Math.abs(height));
        move(1);
        double next = height();
        double part = 1;
        for (int halving = 0; halving < MOST_HALVINGS && !(next >= allowed); halving++) {
            part /= 2;
            move(-part);
            next = height();
        }
        return next;
    }

    private void move(double part) {
        for (int j = 0; j < modes.length; j++) {
            modes[j] += part * step[j];
        }
    }

    /** f at the modes as they stand, and with it rates, residuals and weights of the rows. */
    private double height() {
        int groupings = deviations.length;
        for (int i = 0; i < logOdds.length; i++) {
            double linear = fixed.linear(i);
            for (int g = 0; g < groupings; g++) {
                linear += deviations[g] * modes[structure.column(i, g)];
            }
            logOdds[i] = linear;
        }
        double squares = 0;
        for (double mode : modes) {
            squares += mode * mode;
        }
        return rows.set(logOdds) - squares / 2;
    }

    /** Adds A'times to one number for each intercept. */
    private void addToIntercepts(double[] times, double[] sums) {
        int groupings = deviations.length;
        for (int i = 0; i < times.length; i++) {
            for (int g = 0; g < groupings; g++) {
                sums[structure.column(i, g)] += deviations[g] * times[i];
            }
        }
    }

    /** False where numbers overflow: I + A'WA is positive definite. */
    private boolean factorInformation() {
        Arrays.fill(diagonal, 1);
        Arrays.fill(below, 0);
        int groupings = deviations.length;
        for (int i = 0; i < rows.size(); i++) {
            double weight = rows.weight[i];
            int pair = 0;
            for (int g = 0; g < groupings; g++) {
                double weighted = deviations[g] * weight;
                diagonal[structure.column(i, g)] += deviations[g] * weighted;
                for (int h = 0; h < g; h++) {
                    below[structure.meeting(i, pair++)] += deviations[h] * weighted;
                }
            }
        }
        return factor.factor(diagonal, below);
    }

    private void slopes(double[] gradient) {
        factor.invert();
        int groupings = deviations.length;
        for (int i = 0; i < rows.size(); i++) {
            double leverage = 0;
            for (int g = 0; g < groupings; g++) {
                double entry = inverseTimesRow(i, g);
                inverseTimesRow[i * groupings + g] = entry;
                leverage += deviations[g] * entry;
            }
            influence[i] = rows.weight[i] * rows.skew[i] * leverage / 2;
        }
        double[] turn = step;
        Arrays.fill(turn, 0);
        addToIntercepts(influence, turn);
        factor.solveInPlace(turn);
        Arrays.fill(gradient, 0);
        for (int i = 0; i < rows.size(); i++) {
            addSlopes(i, turn, gradient);
        }
    }

    private void addSlopes(int i, double[] turn, double[] gradient) {
        double along = 0;
        for (int g = 0; g < deviations.length; g++) {
            along += deviations[g] * turn[structure.column(i, g)];
        }
        double slope = rows.residual[i] - influence[i] + rows.weight[i] * along;
        fixed.addRow(i, slope, gradient);
        for (int g = 0; g < deviations.length; g++) {
            int column = structure.column(i, g);
            gradient[fixed.width() + g] += modes[column] * slope
                    - rows.weight[i] * inverseTimesRow[i * deviations.length + g]
                    - rows.residual[i] * turn[column];
        }
    }

    /** The entry of H^-1 a_i at row i's intercept of grouping g. */
    private double inverseTimesRow(int i, int g) {
        double sum = deviations[g] * factor.inverseDiagonal(structure.column(i, g));
        int pair = g * (g - 1) / 2;
        for (int h = 0; h < g; h++) {
            sum += deviations[h] * factor.inverseBelow(structure.meeting(i, pair + h));
        }
        for (int h = g + 1; h < deviations.length; h++) {
            sum += deviations[h] * factor.inverseBelow(structure.meeting(i, h * (h - 1) / 2 + g));
        }
        return sum;
    }

    /**
     * The information about the coefficients at the last parameters as if the weights stayed: X'V^-1 X with V the
     * variance of the working values, W^-1 + AA'. By Woodbury's identity X'WX - X'WA H^-1 A'WX. Width x width.
     */
    double[][] informationAboutCoefficients() {
        int width = fixed.width();
        var information = fixed.products(rows.weight);
        var met = new double[width][];
        for (int a = 0; a < width; a++) {
            met[a] = new double[modes.length];
            addToIntercepts(fixed.column(a, rows.weight), met[a]);
            double[] solved = met[a].clone();
            factor.solveInPlace(solved);
            for (int b = 0; b <= a; b++) {
                double shared = Vectors.dot(met[b], solved);
                information[a][b] -= shared;
                information[b][a] = information[a][b];
            }
        }
        return information;
    }
}
