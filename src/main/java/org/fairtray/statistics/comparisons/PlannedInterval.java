package org.fairtray.statistics.comparisons;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.special.Erf;
import org.fairtray.statistics.Tail;

/**
 * The interval that a trial will give for differences from one control, before there are any readings: normal estimates
 * with the same standard error, their variance estimated with its degrees of freedom, several comparisons held together by
 * {@link Dunnett}'s quantile (one by Student's).
 *
 * <p>Sources: Schuirmann (1987), Journal of Pharmacokinetics and Biopharmaceutics 15, 657-680 (equivalence by two one-sided
 * tests); Julious (2004), Statistics in Medicine 23, 1921-1986 (the chance of that, from memory).
 */
public final class PlannedInterval {
    /** By number of comparisons: that of known variance takes long to prepare, and any number of intervals use it. */
    private static final Map<Integer, Dunnett> KNOWN = new ConcurrentHashMap<>();

    private final int comparisons;
    private final double df;
    private final double standardError;
    private final double quantile;

    private PlannedInterval(int comparisons, double df, double standardError, double quantile) {
        if (!(standardError > 0)) {
            throw new IllegalArgumentException("standard error " + standardError + ": expected above 0");
        }
        this.comparisons = comparisons;
        this.df = df;
        this.standardError = standardError;
        this.quantile = quantile;
    }

    /**
     * The interval.
     *
     * @param comparisons how many levels are held against the control, 1 or more
     * @param df degrees of freedom, above 0
     * @param standardError the true one of a difference, above 0
     * @param alpha one minus the confidence, in (0, 1)
     * @throws IllegalArgumentException if the standard error is not above 0
     */
    public static PlannedInterval of(int comparisons, double df, double standardError, double alpha) {
        double quantile = comparisons == 1
                ? Tail.tQuantile(1 - alpha / 2, df)
                : known(comparisons).withDf(df).quantile(1 - alpha);
        return new PlannedInterval(comparisons, df, standardError, quantile);
    }

    /** The same with another standard error, which takes less work than to begin anew. */
    public PlannedInterval withError(double other) {
        return new PlannedInterval(comparisons, df, other, quantile);
    }

    private static Dunnett known(int comparisons) {
        return KNOWN.computeIfAbsent(comparisons, k -> Dunnett.equal(k, Double.POSITIVE_INFINITY));
    }

    /** Half its width, on average over trials. */
    public double halfWidth() {
        return quantile * standardError * new RootMeanSquare(df).mean();
    }

    /**
     * The chance that every interval lies wholly between −margin and margin, where the levels differ by nothing.
     *
     * @param margin above 0
     */
    public double chanceInside(double margin) {
        double room = margin / standardError;
        double chance = new RootMeanSquare(df).mean(s -> within(room - quantile * s), room / quantile);
        return Math.min(1, Math.max(0, chance));
    }

    /** P(all |Z| ≤ x). */
    private double within(double x) {
        return comparisons == 1 ? Erf.erf(x / Math.sqrt(2)) : known(comparisons).probability(x);
    }
}
