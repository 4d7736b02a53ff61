package org.fairtray.analysis;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.statistics.comparisons.SimultaneousT;
import org.fairtray.statistics.comparisons.StudentizedRange;

/**
 * Several comparisons of one factor's levels, adjusted for one another: the chance that any of their intervals misses, or
 * any of their p-values is wrongly small, is held at alpha.
 *
 * <p>Sources: Dunnett (1955), Journal of the American Statistical Association 50, 1096-1121; Kramer (1956), Biometrics 12,
 * 307-310; for correlations of any form: Hothorn, Bretz and Westfall (2008), Biometrical Journal 50, 346-363.
 */
final class Family {
    private final String adjustment;
    private final DoubleUnaryOperator p;
    private final double quantile;

    /**
     * @param p the adjusted p of a t
     * @param quantile the t that all intervals take together
     */
    private Family(String adjustment, DoubleUnaryOperator p, double quantile) {
        this.adjustment = adjustment;
        this.p = p;
        this.quantile = quantile;
    }

    /** Levels against one control. The fewest degrees of freedom hold for all. */
    static Family againstControl(List<Measured> all, Yardstick yardstick, double alpha) {
        var members = all.stream().filter(Measured::sure).toList();
        if (members.size() < 2) {
            return alone(members, alpha);
        }
        var correlation = new double[members.size()][members.size()];
        for (int i = 0; i < correlation.length; i++) {
            for (int j = 0; j <= i; j++) {
                double both = i == j ? 1 : yardstick.correlation(slope(members.get(i)), slope(members.get(j)));
                correlation[i][j] = both;
                correlation[j][i] = both;
            }
        }
        var together = SimultaneousT.of(correlation, fewest(members));
        return new Family(
                "Dunnett, " + members.size() + " levels against the control",
                together::p,
                together.quantile(1 - alpha));
    }

    /** Every pair of some levels, by Tukey and Kramer. */
    static Family pairs(List<Measured> all, int levels, double alpha) {
        var members = all.stream().filter(Measured::sure).toList();
        if (members.size() < 2) {
            return alone(members, alpha);
        }
        var range = StudentizedRange.of(levels, fewest(members));
        return new Family(
                "Tukey-Kramer, all pairs of " + levels + " levels",
                t -> range.p(t * Math.sqrt(2)),
                range.quantile(1 - alpha) / Math.sqrt(2));
    }

    private static Family alone(List<Measured> members, double alpha) {
        return members.isEmpty()
                ? new Family("none needed", t -> 1, 0)
                : new Family("none needed", t -> 0, members.get(0).quantile(alpha));
    }

    private static double fewest(List<Measured> members) {
        return members.stream().mapToDouble(Measured::degreesOfFreedom).min().orElseThrow();
    }

    private static double[] slope(Measured one) {
        return one.comparison().slope();
    }

    /** How the p-values were adjusted, in words. */
    String adjustment() {
        return adjustment;
    }

    /** The adjusted p, never below that of the comparison alone; null without a spread. */
    Double adjusted(Measured one) {
        return one.sure() ? Double.valueOf(Math.max(one.p(), p.applyAsDouble(Math.abs(one.t())))) : null;
    }

    /** The t that all intervals of the family take together. */
    double quantile() {
        return quantile;
    }
}
