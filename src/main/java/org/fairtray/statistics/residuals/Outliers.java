package org.fairtray.statistics.residuals;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.fairtray.statistics.Tail;

/**
 * Units that lie too far from what is fitted: externally studentised residuals
 *
 * <pre>  t_i = e_i / sqrt(s_(i)^2 (1 - h_i)),   s_(i)^2 = (SS - e_i^2 / (1 - h_i)) / (df - 1)</pre>
 *
 * and Bonferroni's bound for the largest of n, n P(|T| > |t_i|) with df - 1 degrees of freedom.
 *
 * <p>Source: Cook and Weisberg (1982), Residuals and Influence in Regression, section 2.2.2; Beckman and Cook (1983),
 * Technometrics 25, 119-149.
 */
public final class Outliers {
    /** A unit whose value fits itself leaves nothing over. */
    private static final double OWN = 1e-9;

    private final double[] studentised;
    private final double[] adjusted;

    private Outliers(double[] studentised, int df) {
        this.studentised = studentised;
        this.adjusted = Arrays.stream(studentised)
                .map(t -> Math.min(1, studentised.length * Tail.tTwoSided(t, df)))
                .toArray();
    }

    /**
     * Looks at every unit.
     *
     * @param fit with 3 residual degrees of freedom or more
     * @param residuals one for each unit: those of the fit, or others whose distribution is nearer to the normal
     * @throws IllegalArgumentException if there are too few degrees of freedom or another number of residuals
     */
    public static Outliers of(StratumResiduals fit, double[] residuals) {
        double[] leverages = fit.leverages();
        if (fit.df() < 3 || residuals.length != leverages.length) {
            throw new IllegalArgumentException(fit.df() + " degrees of freedom, " + residuals.length
                    + " residuals: expected 3 or more, and " + leverages.length);
        }
        var studentised = IntStream.range(0, residuals.length)
                .mapToDouble(i -> studentised(fit, residuals[i], 1 - leverages[i]))
                .toArray();
        return new Outliers(studentised, fit.df() - 1);
    }

    private static double studentised(StratumResiduals fit, double residual, double free) {
        if (free < OWN || fit.sumOfSquares() == 0) {
            return 0;
        }
        double rest = Math.max(0, fit.sumOfSquares() - residual * residual / free);
        double dispersion = fit.dispersion(rest, fit.df() - 1);
        // Where the others agree to the last digit, any difference is infinitely far.
        return dispersion <= 1e-12 * fit.sumOfSquares()
                ? Math.copySign(Double.POSITIVE_INFINITY, residual)
                : residual / Math.sqrt(dispersion * free);
    }

    /** The studentised residual of a unit; infinite where all others agree exactly. */
    public double studentised(int unit) {
        return studentised[unit];
    }

    /** Its p after Bonferroni. */
    public double adjusted(int unit) {
        return adjusted[unit];
    }

    /** The unit that lies farthest. */
    public int farthest() {
        int farthest = 0;
        for (int i = 1; i < studentised.length; i++) {
            farthest = Math.abs(studentised[i]) > Math.abs(studentised[farthest]) ? i : farthest;
        }
        return farthest;
    }
}
