package org.fairtray.statistics;

/**
 * Wilson's score interval for a proportion, with the trials made fewer where they are alike.
 *
 * <pre>  (p + z^2/2n -+ z sqrt(p(1-p)/n + z^2/4n^2)) / (1 + z^2/n),  n = trials / dispersion</pre>
 *
 * <p>Source: Wilson (1927), Journal of the American Statistical Association 22, 209-212. Dividing the trials by the
 * dispersion is the effective sample size of Kish (1965), Survey Sampling, section 8.2.
 */
public final class Wilson {
    private Wilson() {}

    /**
     * The interval for successes of trials.
     *
     * @param count trials above 0
     * @param dispersion 1 for independent trials, more where they are alike
     * @param level confidence level in (0, 1)
     * @return within [0, 1]; never of width 0
     * @throws IllegalArgumentException if there are no trials or the dispersion is below 1
     */
    public static Interval interval(Count count, double dispersion, double level) {
        if (count.trials() == 0 || !(dispersion >= 1)) {
            throw new IllegalArgumentException(
                    count + " with dispersion " + dispersion + ": expected trials above 0 and dispersion from 1");
        }
        double z = Tail.normalQuantile(1 - (1 - level) / 2);
        double n = count.trials() / dispersion;
        double p = count.rate();
        double middle = p + z * z / (2 * n);
        double half = z * Math.sqrt(p * (1 - p) / n + z * z / (4 * n * n));
        double scale = 1 + z * z / n;
        double low = count.successes() == 0 ? 0 : (middle - half) / scale;
        double high = count.successes() == count.trials() ? 1 : (middle + half) / scale;
        return new Interval(Math.max(0, low), Math.min(1, high));
    }
}
