package org.fairtray.statistics.strata;

import java.util.Optional;
import org.fairtray.statistics.Grouping;

/**
 * The variance of a contrast in one stratum whose units need not vary alike: the squared residual of each unit over 1 less
 * its leverage, with the degrees of freedom that this would have if they did,
 *
 * <pre>
 *   V = sum of w_u e_u^2,  w_u = c_u^2 / M_uu,  e = My
 *   df = (sum of w_u M_uu)^2 / (sum over u, v of w_u w_v M_uv M_vu)
 * </pre>
 *
 * with M the matrix that leaves the residuals of the units. For two groups V is that of Welch's test.
 *
 * <p>Source: Bell and McCaffrey (2002), Survey Methodology 28(2), 169-181; MacKinnon and White (1985), Journal of
 * Econometrics 29, 305-325 (HC2); Imbens and Kolesar (2016), Review of Economics and Statistics 98, 701-712.
 */
public final class UnequalVariance {
    /** With more units than this their variances are as good as one, and the matrix would be large. */
    private static final int MOST_UNITS = 500;

    private static final double ROUNDING = 1e-9;

    private final Strata strata;
    private final int stratum;
    private final Grouping units;
    private final double[][] residualMaker;
    private final double[] residuals;

    /** A variance with its degrees of freedom. */
    public record Spread(double variance, double degreesOfFreedom) {}

    private UnequalVariance(Strata strata, int stratum, double[][] residualMaker, double[] residuals) {
        this.strata = strata;
        this.stratum = stratum;
        this.units = strata.grouping(stratum);
        this.residualMaker = residualMaker;
        this.residuals = residuals;
    }

    /**
     * Prepares the variances in one stratum.
     *
     * @param values n numbers, one for each thing
     * @return empty where nothing is left over, units cross others unevenly, or there are more than 500 of them
     */
    public static Optional<UnequalVariance> of(
            Strata strata, Decomposition decomposition, int stratum, double[] values) {
        var units = strata.grouping(stratum);
        if (decomposition.residualDf(stratum) == 0 || !strata.isEven(stratum) || units.groups() > MOST_UNITS) {
            return Optional.empty();
        }
        var maker = new double[units.groups()][];
        var columns = units.indicators();
        for (int v = 0; v < maker.length; v++) {
            maker[v] = ofUnits(units, decomposition.residual(stratum, columns.get(v)));
        }
        double[] residuals = ofUnits(units, decomposition.residual(stratum, values));
        return Optional.of(new UnequalVariance(strata, stratum, maker, residuals));
    }

    /** One value for each unit of a vector that is the same throughout a unit. */
    private static double[] ofUnits(Grouping units, double[] vector) {
        var values = new double[units.groups()];
        int[] of = units.of();
        for (int i = 0; i < of.length; i++) {
            values[of[i]] = vector[i];
        }
        return values;
    }

    /**
     * The variance of the part of a contrast that lies in the stratum; empty where a unit that takes part fits exactly
     * whatever it gave.
     *
     * @param weights n numbers, the contrast's weight of each thing
     */
    public Optional<Spread> of(double[] weights) {
        double[] sums = units.sums(strata.project(stratum, weights));
        var scaled = new double[sums.length];
        double variance = 0;
        double expected = 0;
        for (int u = 0; u < sums.length; u++) {
            double share = residualMaker[u][u];
            if (share < ROUNDING && Math.abs(sums[u]) > ROUNDING) {
                return Optional.empty();
            }
            scaled[u] = share < ROUNDING ? 0 : sums[u] * sums[u] / share;
            variance += scaled[u] * residuals[u] * residuals[u];
            expected += scaled[u] * share;
        }
        double spread = 0;
        for (int u = 0; u < sums.length; u++) {
            for (int v = 0; v < sums.length; v++) {
                spread += scaled[u] * scaled[v] * residualMaker[u][v] * residualMaker[v][u];
            }
        }
        return spread > 0 ? Optional.of(new Spread(variance, expected * expected / spread)) : Optional.empty();
    }
}
