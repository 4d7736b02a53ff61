package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.statistics.comparisons.SimultaneousT;

/**
 * Several comparisons of one factor's levels, adjusted for one another: the chance that any of their intervals misses, or
 * any of their p-values is wrongly small, is held at alpha.
 *
 * <p>Sources: Dunnett (1955), Journal of the American Statistical Association 50, 1096-1121; Tukey (1953) and Kramer
 * (1956), Biometrics 12, 307-310; for correlations of any form: Hothorn, Bretz and Westfall (2008), Biometrical Journal
 * 50, 346-363.
 */
final class Family {
    private final List<Measured> members;
    private final SimultaneousT distribution;

    private Family(List<Measured> members, SimultaneousT distribution) {
        this.members = members;
        this.distribution = distribution;
    }

    /** A family of comparisons; those without a spread take no part. The fewest degrees of freedom hold for all. */
    static Family of(List<Measured> all, Yardstick yardstick) {
        var members = all.stream().filter(Measured::sure).toList();
        if (members.size() < 2) {
            return new Family(members, null);
        }
        var correlation = new double[members.size()][members.size()];
        for (int i = 0; i < correlation.length; i++) {
            for (int j = 0; j < correlation.length; j++) {
                correlation[i][j] = i == j ? 1 : yardstick.correlation(slope(members.get(i)), slope(members.get(j)));
            }
        }
        double df =
                members.stream().mapToDouble(Measured::degreesOfFreedom).min().orElseThrow();
        return new Family(members, SimultaneousT.of(correlation, df));
    }

    private static double[] slope(Measured one) {
        return one.comparison().slope();
    }

    /** How many comparisons take part. */
    int size() {
        return members.size();
    }

    /** Adjusted p-values of all that were given; null for those that take no part. */
    List<Double> adjusted(List<Measured> all) {
        var adjusted = new ArrayList<Double>();
        for (var one : all) {
            adjusted.add(!one.sure() ? null : distribution == null ? one.p() : Double.valueOf(p(one)));
        }
        return adjusted;
    }

    /** Never below the p of the comparison alone, which the numerical integration could undercut by its error. */
    private double p(Measured one) {
        return Math.max(one.p(), distribution.p(Math.abs(one.t())));
    }

    /** The t that all intervals of the family take together. */
    double quantile(double alpha) {
        return distribution == null
                ? members.stream().mapToDouble(m -> m.quantile(alpha)).max().orElse(Double.NaN)
                : distribution.quantile(1 - alpha);
    }
}
