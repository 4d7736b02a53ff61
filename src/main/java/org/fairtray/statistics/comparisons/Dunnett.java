package org.fairtray.statistics.comparisons;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/**
 * Several treatments against one control: the largest of k two-sided t with the same residual variance and correlations
 * rho_ij = lambda_i lambda_j. For a mean of n_i against a control's of n_0, lambda_i^2 = n_i / (n_i + n_0); with equal
 * sizes every correlation is 1/2. Given S,
 *
 * <pre>
 *   P(all |T_i| <= t) = integral of phi(z) product over i of [Phi((ts - lambda_i z) / c_i) - Phi((-ts - lambda_i z) / c_i)] dz,
 *   c_i^2 = 1 - lambda_i^2
 * </pre>
 *
 * by the trapezoidal rule, whose error vanishes with the step for such integrands; then over S.
 *
 * <p>Source: Dunnett (1955), Journal of the American Statistical Association 50, 1096-1121; Dunnett (1964), Biometrics 20,
 * 482-491; Hsu (1996), Multiple Comparisons, section 3.1. Immutable.
 */
public final class Dunnett {
    private static final double FAR = 9.5;

    private final Studentised largest;

    private Dunnett(Studentised largest) {
        this.largest = largest;
    }

    /**
     * Comparisons with a control where all means, the control's too, are of the same number of values.
     *
     * @param comparisons k, 1 or more
     * @param df degrees of freedom of the residual variance, above 0; infinite where it is known
     */
    public static Dunnett equal(int comparisons, double df) {
        if (comparisons < 1) {
            throw new IllegalArgumentException(comparisons + " comparisons: expected 1 or more");
        }
        var sizes = new double[comparisons];
        Arrays.fill(sizes, 1);
        return sizes(1, sizes, df);
    }

    /**
     * Comparisons with a control of means of unequal numbers of values.
     *
     * @param control the number (or weight) of the control's, above 0
     * @param treatments those of the others, one or more, above 0
     * @param df as in {@link #equal}
     */
    public static Dunnett sizes(double control, double[] treatments, double df) {
        if (!(control > 0) || !Arrays.stream(treatments).allMatch(n -> n > 0)) {
            throw new IllegalArgumentException(
                    "sizes " + control + ", " + Arrays.toString(treatments) + ": expected numbers above 0");
        }
        return loadings(
                Arrays.stream(treatments).map(n -> Math.sqrt(n / (n + control))).toArray(), df);
    }

    /**
     * Comparisons with correlations lambda_i lambda_j.
     *
     * @param loadings lambda, one or more, each in (-1, 1)
     * @param df as in {@link #equal}
     */
    public static Dunnett loadings(double[] loadings, double df) {
        if (loadings.length == 0 || !Arrays.stream(loadings).allMatch(l -> Math.abs(l) < 1)) {
            throw new IllegalArgumentException(
                    "loadings " + Arrays.toString(loadings) + ": expected one or more between -1 and 1");
        }
        return new Dunnett(Studentised.of(within(loadings), FAR, df));
    }

    /** P(all |Z_i| <= x) of the normal variables. */
    private static DoubleUnaryOperator within(double[] loadings) {
        double[] sorted = loadings.clone();
        Arrays.sort(sorted);
        double sharpness = 1;
        for (double loading : loadings) {
            sharpness += loading * loading / (1 - loading * loading);
        }
        double step = 0.7 / Math.sqrt(sharpness);
        return x -> {
            double sum = 0;
            for (int i = (int) Math.floor(-FAR / step); i * step < FAR; i++) {
                sum += NormalTable.density(i * step) * allWithin(x, i * step, sorted);
            }
            return sum * step;
        };
    }

    private static double allWithin(double x, double z, double[] loadings) {
        double product = 1;
        double one = 1;
        for (int i = 0; i < loadings.length; i++) {
            if (i == 0 || loadings[i] != loadings[i - 1]) {
                double spread = Math.sqrt(1 - loadings[i] * loadings[i]);
                double centre = loadings[i] * z;
                one = NormalTable.below((x - centre) / spread) - NormalTable.below((-x - centre) / spread);
            }
            product *= one;
        }
        return product;
    }

    /** The same comparisons with other degrees of freedom, which takes less work than to begin anew. */
    public Dunnett withDf(double df) {
        return new Dunnett(largest.with(df));
    }

    /** P(every |T_i| <= t), right to 1e-9. */
    public double probability(double t) {
        return 1 - largest.upper(t);
    }

    /** The adjusted p of a t: P(some |T_i| > |t|). */
    public double p(double t) {
        return largest.upper(Math.abs(t));
    }

    /** The t that all |T_i| keep below with this probability, for simultaneous intervals; confidence in (0, 1). */
    public double quantile(double confidence) {
        return largest.quantile(confidence);
    }
}
