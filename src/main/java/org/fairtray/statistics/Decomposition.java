package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;

/**
 * How the terms of a model fall into the strata of a layout, found from the layout alone by projections; it takes no
 * pattern for granted. In each stratum a term is what it adds to the terms that don't contain it. Its canonical
 * efficiency factors there are the eigenvalues of the projection of its contrasts onto the stratum: 1 where the stratum
 * holds all information on a contrast, 0 where none, and in between where a contrast is partly confounded.
 *
 * <p>Sources: James and Wilkinson (1971), Biometrika 58, 279-294 (canonical efficiency factors); Nelder (1965),
 * Proceedings of the Royal Society A 283, 147-178 (general balance); Nelder (1977), Journal of the Royal Statistical
 * Society A 140, 48-77 (marginality).
 */
public final class Decomposition {
    /** An efficiency this near to 0 or 1 is 0 or 1: what is left is rounding. */
    private static final double ROUNDING = 1e-7;

    private final Strata strata;
    private final List<ModelTerm> terms;
    private final List<StratumFit> fits;
    private final List<Integer> estimable;
    private final boolean orthogonal;

    /**
     * A term in a stratum.
     *
     * @param df degrees of freedom there, 1 or more
     * @param efficiency harmonic mean of its canonical efficiency factors there, in (0, 1]
     */
    public record Part(int stratum, int term, int df, double efficiency) {}

    /** Sum of squares of a part. */
    public record Row(Part part, double sumOfSquares) {}

    /**
     * The analysis of variance in one stratum.
     *
     * @param rows in the order of the terms
     * @param residualDf 0 or more
     * @param residualSumOfSquares 0 where nothing is left
     */
    public record Table(List<Row> rows, int residualDf, double residualSumOfSquares) {}

    private record TermFit(Part part, Span span, int from) {}

    private record StratumFit(List<TermFit> terms, Span full) {}

    private Decomposition(Strata strata, List<ModelTerm> terms) {
        this.strata = strata;
        this.terms = terms;
        this.fits = IntStream.range(0, strata.size()).mapToObj(this::fit).toList();
        this.estimable = IntStream.range(0, terms.size())
                .mapToObj(t -> adjusted(t).size())
                .toList();
        this.orthogonal = parts().stream().allMatch(p -> p.efficiency > 1 - ROUNDING) && termsAreOrthogonal();
    }

    /**
     * Decomposes a layout.
     *
     * @param strata of n things
     * @param terms of the same n things, each after all that it contains
     */
    public static Decomposition of(Strata strata, List<ModelTerm> terms) {
        return new Decomposition(strata, List.copyOf(terms));
    }

    /** Every term in every stratum that holds information on it, by stratum, then term. */
    public List<Part> parts() {
        return fits.stream().flatMap(f -> f.terms.stream()).map(TermFit::part).toList();
    }

    /** The degrees of freedom left in a stratum when all terms are fitted. */
    public int residualDf(int stratum) {
        return strata.dimension(stratum) - fits.get(stratum).full.dimension();
    }

    /** Whether every term lies wholly in one stratum or another and shares nothing with other terms. */
    public boolean isOrthogonal() {
        return orthogonal;
    }

    /**
     * How many degrees of freedom of a term can be estimated at all, beside the terms that don't contain it; fewer than
     * nominal where combinations are missing or terms are aliased.
     */
    public int estimableDf(int term) {
        return estimable.get(term);
    }

    /** Whether two terms share at least one contrast wholly, so that nothing can tell them apart in it. */
    public boolean aliased(int one, int other) {
        return eigenvalues(overlaps(contrasts(one), contrasts(other))).stream().anyMatch(e -> e > 1 - ROUNDING);
    }

    /**
     * The share of a term's contrasts that differ only between the groups of a grouping: 1 where the term is wholly
     * confounded with it, 0 where it is balanced within every group.
     */
    public double confoundedWith(int term, Grouping grouping) {
        var contrasts = contrasts(term);
        double inside = contrasts.stream()
                .mapToDouble(c -> Vectors.squaredLength(grouping.average(c)))
                .sum();
        return contrasts.isEmpty() ? 0 : inside / contrasts.size();
    }

    /**
     * The analysis of variance of n values.
     *
     * @param values in the order of the things
     * @return a table for each stratum
     */
    public List<Table> analyse(double[] values) {
        return IntStream.range(0, strata.size())
                .mapToObj(s -> table(fits.get(s), strata.project(s, values), residualDf(s)))
                .toList();
    }

    private static Table table(StratumFit fit, double[] part, int residualDf) {
        var rows = fit.terms.stream()
                .map(t -> new Row(t.part, t.span.squaredLengthAlong(part, t.from)))
                .toList();
        double residual = residualDf == 0 ? 0 : Vectors.squaredLength(fit.full.residual(part));
        return new Table(rows, residualDf, residual);
    }

    private StratumFit fit(int s) {
        var projected = terms.stream()
                .map(t -> significant(
                        t.columns().stream().map(c -> strata.project(s, c)).toList()))
                .toList();
        var fitted = new ArrayList<TermFit>();
        for (int t = 0; t < terms.size(); t++) {
            var before = Span.empty().with(columns(projected, notContaining(t)));
            var after = before.with(projected.get(t));
            int df = after.dimension() - before.dimension();
            if (df > 0) {
                fitted.add(new TermFit(new Part(s, t, df, efficiency(s, t, before)), after, before.dimension()));
            }
        }
        var all = IntStream.range(0, terms.size()).boxed().toList();
        return new StratumFit(fitted, Span.empty().with(columns(projected, all)));
    }

    /** Whether all contrasts of each term have the same efficiency in a stratum. */
    public boolean evenIn(int stratum) {
        for (int t = 0; t < terms.size(); t++) {
            var inside =
                    contrasts(t).stream().map(c -> strata.project(stratum, c)).toList();
            var values = eigenvalues(products(inside));
            double first = values.isEmpty() ? 0 : values.get(0);
            if (values.stream().anyMatch(e -> Math.abs(e - first) > ROUNDING)) {
                return false;
            }
        }
        return true;
    }

    /** Harmonic mean of the efficiencies above 0 of a term in a stratum, beside what the terms before it take. */
    private double efficiency(int s, int t, Span before) {
        var inside = adjusted(t).stream()
                .map(c -> before.residual(strata.project(s, c)))
                .toList();
        var positive =
                eigenvalues(products(inside)).stream().filter(e -> e > ROUNDING).toList();
        double harmonic =
                positive.size() / positive.stream().mapToDouble(e -> 1 / e).sum();
        return positive.isEmpty() ? 0 : Math.min(1, harmonic);
    }

    private List<Integer> notContaining(int t) {
        return IntStream.range(0, terms.size())
                .filter(u -> !terms.get(u).contains(terms.get(t)))
                .boxed()
                .toList();
    }

    private static List<double[]> columns(List<List<double[]>> projected, List<Integer> chosen) {
        return chosen.stream().flatMap(t -> projected.get(t).stream()).toList();
    }

    /** Orthonormal contrasts of a term beside all terms that don't contain it. */
    private List<double[]> adjusted(int t) {
        return contrasts(t, notContaining(t));
    }

    /** Orthonormal contrasts of a term beside only the terms that it contains. */
    private List<double[]> contrasts(int t) {
        var contained = IntStream.range(0, terms.size())
                .filter(u -> u != t && terms.get(t).contains(terms.get(u)))
                .boxed()
                .toList();
        return contrasts(t, contained);
    }

    private List<double[]> contrasts(int t, List<Integer> beside) {
        var raw = terms.stream().map(ModelTerm::columns).toList();
        var before = Span.empty()
                .with(Grouping.whole(strata.grouping(0).size()).indicators())
                .with(columns(raw, beside));
        return before.with(raw.get(t)).basisFrom(before.dimension());
    }

    private boolean termsAreOrthogonal() {
        for (int t = 0; t < terms.size(); t++) {
            for (int u = 0; u < t; u++) {
                if (!orthogonalInEveryStratum(contrasts(t), contrasts(u))) {
                    return false;
                }
            }
        }
        return true;
    }

    private boolean orthogonalInEveryStratum(List<double[]> one, List<double[]> other) {
        for (int s = 0; s < strata.size(); s++) {
            for (var contrast : one) {
                var part = strata.project(s, contrast);
                if (other.stream().anyMatch(c -> Math.abs(Vectors.dot(part, c)) > ROUNDING)) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Rounding error of a column that a stratum does not hold must not become a direction of its own. */
    private static List<double[]> significant(List<double[]> columns) {
        return columns.stream()
                .filter(c -> Vectors.squaredLength(c) > Span.TOLERANCE * Span.TOLERANCE * c.length)
                .toList();
    }

    /** A'B B'A for orthonormal A and B: squared cosines between the two spaces. */
    private static double[][] overlaps(List<double[]> a, List<double[]> b) {
        var cross = new double[a.size()][b.size()];
        for (int i = 0; i < a.size(); i++) {
            for (int j = 0; j < b.size(); j++) {
                cross[i][j] = Vectors.dot(a.get(i), b.get(j));
            }
        }
        return products(List.of(cross));
    }

    private static double[][] products(List<double[]> vectors) {
        var products = new double[vectors.size()][vectors.size()];
        for (int i = 0; i < vectors.size(); i++) {
            for (int j = 0; j < vectors.size(); j++) {
                products[i][j] = Vectors.dot(vectors.get(i), vectors.get(j));
            }
        }
        return products;
    }

    private static List<Double> eigenvalues(double[][] symmetric) {
        if (symmetric.length == 0) {
            return List.of();
        }
        double[] values = new EigenDecomposition(new Array2DRowRealMatrix(symmetric)).getRealEigenvalues();
        return java.util.Arrays.stream(values).boxed().toList();
    }
}
