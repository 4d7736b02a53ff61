package org.fairtray.statistics.strata;

import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Eigen;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Span;
import org.fairtray.statistics.Vectors;

/**
 * The F of one term in one stratum for any number of sets of values: the layout is decomposed once, and each F is a few
 * sums of products over the units of the stratum.
 *
 * <p>F = (S/d) / (R/r), with S the squared length along the d directions that the term adds to the terms that don't contain
 * it, and R what all terms leave over of the values' part in the stratum, on r degrees of freedom. R is a difference of
 * sums of squares, so values must be free of a large common part: {@link #unitValues} sees to that.
 *
 * <p>Source: Nelder (1965), Proceedings of the Royal Society A 283, 147-178 (analysis by strata).
 */
public final class VarianceRatio {
    /** Sums of squares of the same values in another order differ by less than this share. */
    private static final double ROUNDING = 1e-14;

    /** Of two ratios that should be the same by symmetry, one may come out smaller by this share. */
    private static final double SAME = 1e-9;

    /** Entries of a direction nearer to each other than this differ by rounding. */
    private static final double SAME_ENTRY = 1e-12;

    /** An eigenvalue this small is a direction that the stratum doesn't hold. */
    private static final double NOTHING = 1e-7;

    private final Strata strata;
    private final int stratum;
    private final Grouping units;
    private final Span others;
    /** Units that have the same part in every direction, as those with the same treatment in even blocks have. */
    private final int[] kindOf;
    /** Orthonormal directions of all terms, each summed over the things of a unit; one entry for each kind of units. */
    private final double[][] directions;

    private final int from;
    private final int df;
    private final int residualDf;

    /**
     * @param others what the terms that don't contain this one span in the stratum
     * @param own the same with this term
     * @param full the same with all terms
     * @param residualDf what is left over, 1 or more
     */
    VarianceRatio(Strata strata, int stratum, Span others, Span own, Span full, int residualDf) {
        this.strata = strata;
        this.stratum = stratum;
        this.units = strata.grouping(stratum);
        this.others = others;
        var byUnit = full.basisFrom(0).stream().map(units::sums).toList();
        var kinds = Grouping.by(IntStream.range(0, units.groups())
                .mapToObj(u -> byUnit.stream().map(d -> rounded(d[u])).toList())
                .toList());
        this.kindOf = kinds.of();
        this.directions = byUnit.stream().map(d -> averages(kinds, d)).toArray(double[][]::new);
        this.from = others.dimension();
        this.df = own.dimension() - from;
        this.residualDf = residualDf;
    }

    /** Directions have length 1 and come out of the same sums taken in another order. */
    private static long rounded(double entry) {
        return Math.round(entry / SAME_ENTRY);
    }

    private static double[] averages(Grouping groups, double[] values) {
        var averages = groups.sums(values);
        int[] sizes = groups.sizes();
        for (int k = 0; k < averages.length; k++) {
            averages[k] /= sizes[k];
        }
        return averages;
    }

    /** The degrees of freedom of the term in the stratum, 1 or more. */
    public int df() {
        return df;
    }

    /** The degrees of freedom left over, 1 or more. */
    public int residualDf() {
        return residualDf;
    }

    /**
     * One number for each unit of the stratum that says all about the values in it: where every thing has the number of
     * its unit, the part in the stratum is that of the values.
     *
     * @param values one for each thing
     */
    public double[] unitValues(double[] values) {
        return byUnit(strata.project(stratum, values));
    }

    /** The same of what the terms that don't contain this one leave over. */
    public double[] unitResiduals(double[] values) {
        return byUnit(others.residual(strata.project(stratum, values)));
    }

    private double[] byUnit(double[] part) {
        var means = means(part);
        double apart = Vectors.squaredLength(Vectors.minus(part, spread(means)));
        return apart <= Span.TOLERANCE * Span.TOLERANCE * Vectors.squaredLength(part) ? means : solved(part);
    }

    private double[] means(double[] part) {
        return averages(units, part);
    }

    private double[] spread(double[] unitValues) {
        int[] of = units.of();
        var things = new double[of.length];
        for (int i = 0; i < of.length; i++) {
            things[i] = unitValues[of[i]];
        }
        return things;
    }

    /** Where levels cross unevenly: the shortest numbers by unit that have this part in the stratum. */
    private double[] solved(double[] part) {
        List<double[]> columns =
                units.indicators().stream().map(c -> strata.project(stratum, c)).toList();
        int count = columns.size();
        var products = new double[count][count];
        for (int u = 0; u < count; u++) {
            for (int v = 0; v < count; v++) {
                products[u][v] = Vectors.dot(columns.get(u), columns.get(v));
            }
        }
        var right = columns.stream().mapToDouble(c -> Vectors.dot(c, part)).toArray();
        var eigen = Eigen.of(products);
        var solution = new double[count];
        for (int k = 0; k < count; k++) {
            if (eigen.values()[k] > NOTHING) {
                var direction = eigen.directions()[k];
                Vectors.takeAway(solution, -Vectors.dot(direction, right) / eigen.values()[k], direction);
            }
        }
        return solution;
    }

    /** The squared length of what the stratum holds of these numbers by unit. */
    public double total(double[] unitValues) {
        return strata.share(stratum, spread(unitValues));
    }

    /**
     * The ratio F.
     *
     * @param unitValues one for each unit of the stratum
     * @return infinite where nothing is left over
     */
    public double of(double[] unitValues) {
        double[] sums = sumsByKind(unitValues);
        double own = along(sums, from, from + df);
        return own / df / (Math.max(0, total(unitValues) - along(sums, 0, directions.length)) / residualDf);
    }

    /**
     * Whether the ratio is a given one or more; one that differs from it by rounding alone is as large.
     *
     * @param unitValues one for each unit of the stratum
     * @param total their {@link #total}, which the caller may know
     * @param ratio 0 or more
     */
    public boolean reaches(double[] unitValues, double total, double ratio) {
        double[] sums = sumsByKind(unitValues);
        double own = along(sums, from, from + df);
        double others = along(sums, 0, from) + along(sums, from + df, directions.length);
        return reaches(own, total - own - others, total, ratio, df, residualDf);
    }

    /** Whether (own/df)/(rest/residualDf) is the ratio or more, with rest a difference taken from total. */
    static boolean reaches(double own, double rest, double total, double ratio, int df, int residualDf) {
        double least = Math.max(0, rest - ROUNDING * total);
        return own * residualDf >= ratio * (1 - SAME) * df * least;
    }

    private double[] sumsByKind(double[] unitValues) {
        var sums = new double[directions[0].length];
        for (int u = 0; u < unitValues.length; u++) {
            sums[kindOf[u]] += unitValues[u];
        }
        return sums;
    }

    private double along(double[] sumsByKind, int first, int end) {
        double sum = 0;
        for (int k = first; k < end; k++) {
            double along = Vectors.dot(directions[k], sumsByKind);
            sum += along * along;
        }
        return sum;
    }
}
