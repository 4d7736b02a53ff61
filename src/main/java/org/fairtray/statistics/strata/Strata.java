package org.fairtray.statistics.strata;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Span;
import org.fairtray.statistics.Vectors;

/**
 * The strata of n things that lie in groups within groups, or in crossed groups: for each grouping, what differs between
 * its groups and not between the groups before it. Strata are orthogonal, and with the overall mean they fill the whole
 * space where the last grouping tells every thing apart.
 *
 * <p>Where a grouping is nested in, or crossed evenly with, those before it, its projection is an average minus the
 * projections of the coarser ones. Where it is crossed unevenly (trays are missing) its stratum is what it adds to all
 * before it, found as a {@link Span}.
 *
 * <p>Source: Bailey (2008), Design of Comparative Experiments, chapter 10 (orthogonal block structures).
 */
public final class Strata {
    private final List<Grouping> groupings;
    private final List<Projection> projections;

    private interface Projection {
        double[] apply(double[] vector);

        int dimension();
    }

    private Strata(List<Grouping> groupings, List<Projection> projections) {
        this.groupings = groupings;
        this.projections = projections;
    }

    /**
     * The strata of these groupings.
     *
     * @param groupings of the same things, each after all that are coarser than it
     * @throws IllegalArgumentException if there is none or their sizes differ
     */
    public static Strata of(List<Grouping> groupings) {
        if (groupings.stream().mapToInt(Grouping::size).distinct().count() != 1) {
            throw new IllegalArgumentException(groupings + ": expected one or more groupings of the same things");
        }
        var projections = new ArrayList<Projection>();
        for (int s = 0; s < groupings.size(); s++) {
            projections.add(projection(groupings, projections, s));
        }
        return new Strata(List.copyOf(groupings), projections);
    }

    private static Projection projection(List<Grouping> groupings, List<Projection> earlier, int s) {
        var grouping = groupings.get(s);
        List<Integer> coarser = IntStream.range(0, s)
                .filter(j -> grouping.finerThan(groupings.get(j)))
                .boxed()
                .toList();
        boolean even = IntStream.range(0, s)
                .filter(j -> !coarser.contains(j))
                .allMatch(j -> Crossing.isEven(
                        grouping,
                        groupings.get(j),
                        coarser.stream().map(groupings::get).toList()));
        return even
                ? new Average(grouping, coarser.stream().map(earlier::get).toList())
                : Added.of(grouping, List.copyOf(earlier));
    }

    /** How many strata there are. */
    public int size() {
        return projections.size();
    }

    /** The grouping of stratum s. */
    public Grouping grouping(int s) {
        return groupings.get(s);
    }

    /** The degrees of freedom of stratum s, before anything is fitted. */
    public int dimension(int s) {
        return projections.get(s).dimension();
    }

    /** Whether stratum s is found by averages, so that its part of a vector is the same throughout each group. */
    public boolean isEven(int s) {
        return projections.get(s) instanceof Average;
    }

    /**
     * The part of a vector that lies in stratum s.
     *
     * @param vector n numbers; not changed
     */
    public double[] project(int s, double[] vector) {
        return projections.get(s).apply(centred(vector));
    }

    /** The squared length of the part of a vector that lies in stratum s. */
    public double share(int s, double[] vector) {
        return Vectors.squaredLength(project(s, vector));
    }

    /** The strata coarser than s: those whose groups each hold whole groups of s. */
    public List<Integer> coarser(int s) {
        return IntStream.range(0, s)
                .filter(j -> groupings.get(s).finerThan(groupings.get(j)))
                .boxed()
                .toList();
    }

    /** A vector less its mean; the mean of what is left is taken off again, which mends rounding in large values. */
    static double[] centred(double[] vector) {
        var whole = Grouping.whole(vector.length);
        var once = Vectors.minus(vector, whole.average(vector));
        return Vectors.minus(once, whole.average(once));
    }

    /** Group means less what belongs to coarser strata. */
    private record Average(Grouping grouping, List<Projection> coarser) implements Projection {
        @Override
        public double[] apply(double[] centred) {
            var part = grouping.groups() == centred.length ? centred.clone() : grouping.average(centred);
            for (var outer : coarser) {
                Vectors.takeAway(part, 1, outer.apply(centred));
            }
            return part;
        }

        @Override
        public int dimension() {
            return grouping.groups()
                    - 1
                    - coarser.stream().mapToInt(Projection::dimension).sum();
        }
    }

    /** What unevenly crossed groups add to the strata before them. */
    private record Added(Span basis) implements Projection {
        static Added of(Grouping grouping, List<Projection> earlier) {
            var columns = new ArrayList<double[]>();
            for (var indicator : grouping.indicators()) {
                var rest = centred(indicator);
                for (var outer : earlier) {
                    Vectors.takeAway(rest, 1, outer.apply(rest));
                }
                columns.add(rest);
            }
            return new Added(Span.empty().with(significant(columns)));
        }

        /** A column that the strata before already hold is rounding error only, and must not become a direction. */
        private static List<double[]> significant(List<double[]> columns) {
            return columns.stream()
                    .filter(c -> Vectors.squaredLength(c) > Span.TOLERANCE * Span.TOLERANCE)
                    .toList();
        }

        @Override
        public double[] apply(double[] centred) {
            return Vectors.minus(centred, basis.residual(centred));
        }

        @Override
        public int dimension() {
            return basis.dimension();
        }
    }
}
