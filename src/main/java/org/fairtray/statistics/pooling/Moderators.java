package org.fairtray.statistics.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Span;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * Do the studies differ because of something that is known of each, such as its warmth? A regression of their estimates on
 * such columns, with a variance tau^2 between studies that the columns leave over, by REML ({@link Between}):
 *
 * <pre>  y_i ~ N(x_i'b, v_i + tau^2),   cov(b) = s^2 (X'WX)^-1,   s^2 = y'Py / (k - p)</pre>
 *
 * (Knapp and Hartung's covariance, as it is, even where s^2 is below 1), t and F with k - p degrees of freedom. Inside, the
 * columns are made orthogonal first, so that a year next to an intercept costs no digits.
 *
 * <p>Sources: Knapp and Hartung (2003), Statistics in Medicine 22, 2693-2710; Viechtbauer (2005), Journal of Educational and
 * Behavioral Statistics 30, 261-293; the share explained: Raudenbush (2009), in Cooper, Hedges and Valentine, The Handbook of
 * Research Synthesis and Meta-Analysis, 2nd ed., chapter 16. Immutable.
 */
public final class Moderators {
    private final ModelMatrix model;
    private final Estimates plain;
    private final Pool.At without;
    private final Between between;
    private final RandomEffects alone;
    private final double alpha;

    private Moderators(
            ModelMatrix model, Estimates plain, Pool.At without, Between between, RandomEffects alone, double alpha) {
        this.model = model;
        this.plain = plain;
        this.without = without;
        this.between = between;
        this.alone = alone;
        this.alpha = alpha;
    }

    /** F of several coefficients at once. */
    public record Together(double f, int numerator, int denominator, double p) {}

    /**
     * Fits the regression. An intercept is put before the columns; a column that is a combination of those before it is left
     * out ({@link #dropped}).
     *
     * @param studies k of them
     * @param columns one for each moderator, of k numbers each
     * @param alpha in (0, 1): intervals are 1 - alpha ones
     * @return empty where there are no more studies than coefficients
     * @throws IllegalArgumentException if a column has another length or alpha is out of range
     */
    public static Optional<Moderators> of(List<Study> studies, List<ModelMatrix.Column> columns, double alpha) {
        int k = studies.size();
        var lengths = columns.stream().map(column -> column.values().length).toList();
        if (lengths.stream().anyMatch(length -> length != k) || !(alpha > 0 && alpha < 1)) {
            throw new IllegalArgumentException("columns of " + lengths + " numbers, alpha " + alpha + ": expected " + k
                    + " of each, between 0 and 1");
        }
        if (k < 2) {
            return Optional.empty();
        }
        var all = new ArrayList<ModelMatrix.Column>();
        all.add(new ModelMatrix.Column(
                "intercept", IntStream.range(0, k).mapToDouble(i -> 1).toArray()));
        all.addAll(columns);
        var model = ModelMatrix.of(all);
        var kept = columns(model);
        var basis = Span.empty().with(kept).basisFrom(0);
        if (k <= model.width() || basis.size() < model.width()) {
            return Optional.empty();
        }
        var pool = new Pool(
                ModelMatrix.of(basis.stream()
                        .map(vector -> new ModelMatrix.Column("", vector))
                        .toList()),
                studies);
        var between = Between.of(pool);
        var plain = inColumns(kept, basis, between.at());
        return Optional.of(new Moderators(model, plain, pool.at(0), between, RandomEffects.of(studies, alpha), alpha));
    }

    private static List<double[]> columns(ModelMatrix model) {
        return IntStream.range(0, model.width())
                .mapToObj(j -> IntStream.range(0, model.height())
                        .mapToDouble(i -> model.row(i)[j])
                        .toArray())
                .toList();
    }

    /** Of X = QR the coefficients R^-1 c and covariance R^-1 C R^-T, from those of the columns of Q. */
    private static Estimates inColumns(List<double[]> columns, List<double[]> basis, Pool.At at) {
        int p = basis.size();
        var half = new double[p][];
        for (int j = 0; j < p; j++) {
            var column = new double[p];
            for (int i = 0; i < p; i++) {
                column[i] = at.covariance()[i][j];
            }
            half[j] = back(columns, basis, column);
        }
        var covariance = new double[p][];
        for (int j = 0; j < p; j++) {
            int row = j;
            covariance[j] = back(
                    columns,
                    basis,
                    IntStream.range(0, p).mapToDouble(i -> half[i][row]).toArray());
        }
        return new Estimates(back(columns, basis, at.coefficients()), covariance);
    }

    /** The x of Rx = c, R_ij being column j along vector i of the basis. */
    private static double[] back(List<double[]> columns, List<double[]> basis, double[] c) {
        var x = c.clone();
        for (int i = x.length - 1; i >= 0; i--) {
            for (int j = i + 1; j < x.length; j++) {
                x[i] -= Vectors.dot(columns.get(j), basis.get(i)) * x[j];
            }
            x[i] /= Vectors.dot(columns.get(i), basis.get(i));
        }
        return x;
    }

    /** Whether the searches for tau^2 came to rest; if not, nothing should be concluded. */
    public boolean settled() {
        return between.settled() && alone.settled();
    }

    /** The names of the coefficients, "intercept" first. */
    public List<String> names() {
        return model.names();
    }

    /** The columns that were left out, being combinations of those before them. */
    public List<String> dropped() {
        return model.redundant();
    }

    /** k - p. */
    public int degreesOfFreedom() {
        return model.height() - model.width();
    }

    /** Coefficient j. */
    public double coefficient(int j) {
        return plain.coefficient(j);
    }

    /** The standard error of coefficient j that takes tau^2 as known. */
    public double plainStandardError(int j) {
        return plain.standardError(j);
    }

    /** Knapp and Hartung's standard error of coefficient j. */
    public double standardError(int j) {
        return plain.standardError(j) * Math.sqrt(factor());
    }

    /** s^2. */
    private double factor() {
        return between.at().q() / degreesOfFreedom();
    }

    /** The t interval of coefficient j. */
    public Interval interval(int j) {
        double half = Tail.tQuantile(1 - alpha / 2, degreesOfFreedom()) * standardError(j);
        return new Interval(coefficient(j) - half, coefficient(j) + half);
    }

    /** Two-sided p of coefficient j being 0. */
    public double p(int j) {
        return coefficient(j) == 0 ? 1 : Tail.tTwoSided(coefficient(j) / standardError(j), degreesOfFreedom());
    }

    /** The variance between studies that the columns leave over. */
    public double tauSquared() {
        return between.at().tauSquared();
    }

    /** QE, what the columns leave over of the estimates at tau^2 = 0, weighted by 1 / v_i. */
    public double q() {
        return without.q();
    }

    /** p of no variance between studies being left, chi-squared with k - p degrees of freedom. */
    public double qP() {
        return Tail.chiSquared(without.q(), degreesOfFreedom());
    }

    /** F of all coefficients but the intercept being 0; missing where there is no other, or where all fits exactly. */
    public Optional<Together> together() {
        int moderators = model.width() - 1;
        if (moderators == 0 || !(factor() > 0)) {
            return Optional.empty();
        }
        var part = new double[moderators][moderators];
        var coefficients = new double[moderators];
        for (int a = 0; a < moderators; a++) {
            coefficients[a] = plain.coefficient(a + 1);
            for (int b = 0; b < moderators; b++) {
                part[a][b] = plain.covariance(a + 1, b + 1);
            }
        }
        return Cholesky.of(part).map(root -> {
            double f = Vectors.squaredLength(root.forward(coefficients)) / moderators / factor();
            return new Together(f, moderators, degreesOfFreedom(), Tail.f(f, moderators, degreesOfFreedom()));
        });
    }

    /**
     * The share of the variance between studies that the columns explain: (tau^2 without them - tau^2) / tau^2 without them, 0
     * where they leave more; missing where there is none without them. With few studies it is very unsure.
     */
    public OptionalDouble explained() {
        double before = alone.tauSquared().orElseThrow();
        return before > 0 ? OptionalDouble.of(Math.max(0, 1 - tauSquared() / before)) : OptionalDouble.empty();
    }
}
