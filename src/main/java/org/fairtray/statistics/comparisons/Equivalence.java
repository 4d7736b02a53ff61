package org.fairtray.statistics.comparisons;

import java.util.Optional;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Tail;

/**
 * Whether a difference is too small to matter: two one-sided t tests, of "at or below -margin" and of "at or above margin".
 * Both reject at alpha just where the 1 - 2 alpha interval lies inside the margins. The first alone says that the
 * difference isn't worse than -margin (non-inferiority).
 *
 * <p>Source: Schuirmann (1987), Journal of Pharmacokinetics and Biopharmaceutics 15, 657-680.
 *
 * @param pNotBelow of the test against a difference at or below -margin
 * @param pNotAbove of the test against a difference at or above margin
 * @param interval with confidence 1 - 2 alpha
 * @param notBelow whether the difference is shown to be above -margin
 * @param notAbove whether it is shown to be below margin
 */
public record Equivalence(double pNotBelow, double pNotAbove, Interval interval, boolean notBelow, boolean notAbove) {

    /**
     * Tests an estimated difference.
     *
     * @param standardError 0 or more
     * @param df degrees of freedom of the standard error, above 0; infinite where it is known
     * @param margin above 0, in the unit of the estimate
     * @param alpha of each test, in (0, 0.5)
     * @return empty where the standard error is 0: data that don't vary can't tell how sure they are
     */
    public static Optional<Equivalence> of(
            double estimate, double standardError, double df, double margin, double alpha) {
        if (!(standardError >= 0 && df > 0 && margin > 0 && alpha > 0 && alpha < 0.5) || Double.isNaN(estimate)) {
            throw new IllegalArgumentException(
                    "estimate " + estimate + ", standard error " + standardError + ", df " + df
                            + ", margin " + margin + ", alpha " + alpha
                            + ": expected a number, 0 or more, above 0, above 0, between 0 and 0.5");
        }
        if (standardError == 0) {
            return Optional.empty();
        }
        double below = upper((estimate + margin) / standardError, df);
        double above = upper((margin - estimate) / standardError, df);
        double half = standardError
                * (Double.isInfinite(df) ? Tail.normalQuantile(1 - alpha) : Tail.tQuantile(1 - alpha, df));
        var interval = new Interval(estimate - half, estimate + half);
        return Optional.of(new Equivalence(below, above, interval, below < alpha, above < alpha));
    }

    /** P(T > t). */
    private static double upper(double t, double df) {
        double both = Double.isInfinite(df) ? Tail.chiSquared(t * t, 1) : Tail.tTwoSided(t, df);
        return t > 0 ? both / 2 : 1 - both / 2;
    }

    /** The p of the whole: the larger of the two. */
    public double p() {
        return Math.max(pNotBelow, pNotAbove);
    }

    /** Whether the difference is shown to be too small to matter, either way. */
    public boolean equivalent() {
        return notBelow && notAbove;
    }
}
