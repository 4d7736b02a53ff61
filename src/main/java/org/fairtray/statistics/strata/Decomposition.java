package org.fairtray.statistics.strata;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.statistics.Eigen;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Span;
import org.fairtray.statistics.Vectors;

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

    /** Products of unit vectors this small are the rounding of 0. */
    private static final double NOTHING = 1e-13;

    private final Strata strata;
    private final List<ModelTerm> terms;
    /** Orthonormal contrasts of each term beside only the terms that it contains. */
    private final List<List<double[]>> contrasts;
    /** Orthonormal contrasts of each term beside all terms that don't contain it. */
    private final List<List<double[]>> adjusted;

    private final List<StratumFit> fits;
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

    /** In one stratum: the projected contrasts of each term, each term that has some there, and the space of all. */
    private record StratumFit(List<List<double[]>> projected, List<TermFit> terms, Span full) {}

    private Decomposition(Strata strata, List<ModelTerm> terms) {
        this.strata = strata;
        this.terms = terms;
        this.contrasts = new ArrayList<>();
        for (int t = 0; t < terms.size(); t++) {
            contrasts.add(added(containedIn(t), terms.get(t).columns()));
        }
        this.adjusted = termsAreOrthogonal(contrasts)
                ? contrasts
                : IntStream.range(0, terms.size())
                        .mapToObj(t -> added(notContaining(t), contrasts.get(t)))
                        .toList();
        this.fits = IntStream.range(0, strata.size()).mapToObj(this::fit).toList();
        this.orthogonal = parts().stream().allMatch(p -> p.efficiency > 1 - ROUNDING)
                && fits.stream().allMatch(f -> termsAreOrthogonal(f.projected));
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

    /**
     * The degrees of freedom by which the variance between the units of a stratum can be estimated where strata are put
     * together: what those units add to all terms and to all strata before it. In an orthogonal layout it is
     * {@link #residualDf}; else it may be more, since a term need not be fitted anew in every stratum.
     *
     * <p>Source (from memory): Henderson (1953), Biometrics 9, 226-252 (method 3).
     */
    public int errorDf(int stratum) {
        var mean = Grouping.whole(strata.grouping(0).size()).indicators();
        var before = Span.empty().with(mean);
        for (var own : contrasts) {
            before = before.with(own);
        }
        for (int s = 0; s < stratum; s++) {
            before = before.with(strata.grouping(s).indicators());
        }
        return before.with(strata.grouping(stratum).indicators()).dimension() - before.dimension();
    }

    /** Whether every term lies wholly in one stratum or another and shares nothing with other terms. */
    public boolean isOrthogonal() {
        return orthogonal;
    }

    /** The degrees of freedom of a term when every combination is made and it is told apart from all others. */
    public int nominalDf(int term) {
        return terms.get(term).nominalDf();
    }

    /**
     * How many degrees of freedom of a term can be estimated at all, beside the terms that don't contain it; fewer than
     * nominal where combinations are missing or terms are aliased.
     */
    public int estimableDf(int term) {
        return adjusted.get(term).size();
    }

    /** Whether two terms share at least one contrast wholly, so that nothing can tell them apart in it. */
    public boolean aliased(int one, int other) {
        return eigenvalues(overlaps(contrasts.get(one), contrasts.get(other))).stream()
                .anyMatch(e -> e > 1 - ROUNDING);
    }

    /**
     * The share of a term's contrasts that differ only between the groups of a grouping: 1 where the term is wholly
     * confounded with it, 0 where it is balanced within every group.
     */
    public double confoundedWith(int term, Grouping grouping) {
        var own = contrasts.get(term);
        double inside = own.stream()
                .mapToDouble(c -> Vectors.squaredLength(grouping.average(c)))
                .sum();
        return own.isEmpty() ? 0 : inside / own.size();
    }

    /** What all terms leave over of n values in a stratum. */
    public double[] residual(int stratum, double[] values) {
        return fits.get(stratum).full.residual(strata.project(stratum, values));
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

    /**
     * The F of a term in a stratum for many sets of values; empty where the term has no degrees of freedom there, or none
     * are left to test it against.
     */
    public Optional<VarianceRatio> ratio(int stratum, int term) {
        var projected = fits.get(stratum).projected;
        var others = Span.empty().with(columns(projected, notContaining(term)));
        var own = others.with(projected.get(term));
        if (own.dimension() == others.dimension() || residualDf(stratum) == 0) {
            return Optional.empty();
        }
        var all = IntStream.range(0, terms.size()).boxed().toList();
        var full = own.with(columns(projected, all));
        return Optional.of(new VarianceRatio(strata, stratum, others, own, full, residualDf(stratum)));
    }

    private static Table table(StratumFit fit, double[] part, int residualDf) {
        var rows = fit.terms.stream()
                .map(t -> new Row(t.part, t.span.squaredLengthAlong(part, t.from)))
                .toList();
        double residual = residualDf == 0 ? 0 : Vectors.squaredLength(fit.full.residual(part));
        return new Table(rows, residualDf, residual);
    }

    private StratumFit fit(int s) {
        var projected = contrasts.stream().map(c -> project(s, c)).toList();
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
        return new StratumFit(projected, fitted, Span.empty().with(columns(projected, all)));
    }

    /** What a stratum holds of some unit vectors; of one it does not hold only rounding is left, which is dropped. */
    private List<double[]> project(int s, List<double[]> vectors) {
        return vectors.stream()
                .map(v -> strata.project(s, v))
                .filter(v -> Vectors.squaredLength(v) > Span.TOLERANCE * Span.TOLERANCE)
                .toList();
    }

    /** Whether all contrasts of each term have the same efficiency in a stratum. */
    public boolean evenIn(int stratum) {
        return contrasts.stream().allMatch(own -> {
            var inside = own.stream().map(c -> strata.project(stratum, c)).toList();
            var values = eigenvalues(products(inside));
            return values.stream().allMatch(e -> Math.abs(e - values.get(0)) < ROUNDING);
        });
    }

    /** Harmonic mean of the efficiencies above 0 of a term in a stratum, beside what the terms before it take. */
    private double efficiency(int s, int t, Span before) {
        var inside = adjusted.get(t).stream()
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

    private List<Integer> containedIn(int t) {
        return IntStream.range(0, t)
                .filter(u -> terms.get(t).contains(terms.get(u)))
                .boxed()
                .toList();
    }

    /** What some columns add to the mean and the contrasts of some terms, orthonormal. */
    private List<double[]> added(List<Integer> beside, List<double[]> columns) {
        var mean = Grouping.whole(strata.grouping(0).size()).indicators();
        var before = Span.empty().with(mean).with(columns(contrasts, beside));
        return before.with(columns).basisFrom(before.dimension());
    }

    private static boolean termsAreOrthogonal(List<List<double[]>> projected) {
        for (int t = 0; t < projected.size(); t++) {
            for (int u = 0; u < t; u++) {
                for (var one : projected.get(t)) {
                    if (projected.get(u).stream().anyMatch(c -> Math.abs(Vectors.dot(one, c)) > ROUNDING)) {
                        return false;
                    }
                }
            }
        }
        return true;
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

    private static boolean isDiagonal(double[][] matrix) {
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < i; j++) {
                if (Math.abs(matrix[i][j]) > NOTHING) {
                    return false;
                }
            }
        }
        return true;
    }

    private static List<Double> eigenvalues(double[][] symmetric) {
        if (isDiagonal(symmetric)) {
            return IntStream.range(0, symmetric.length)
                    .mapToObj(i -> symmetric[i][i])
                    .toList();
        }
        return Arrays.stream(Eigen.of(symmetric).values()).boxed().toList();
    }
}
