package org.fairtray.statistics.residuals;

import org.apache.commons.math3.special.Gamma;

/**
 * The range of k counts of n independent trials each at the same rate,
 *
 * <pre>  P(range <= R) = sum over x of [(F(x + R) - F(x - 1))^k - (F(x + R) - F(x))^k]</pre>
 *
 * with F the binomial distribution function: x is the smallest of the counts.
 *
 * <p>Source: Burr (1955), Annals of Mathematical Statistics 26, 530-532 (from memory); the formula follows at
 * once, since the smallest is x or more with all in x .. x + R, less those with none at x.
 */
public final class ReplicateRange {
    private final int replicates;
    private final double[] below;

    /** {@code below[x + 1]} is F(x), so that F(-1) = 0 stands first. */
    private ReplicateRange(int replicates, double[] below) {
        this.replicates = replicates;
        this.below = below;
    }

    /**
     * The range of some counts.
     *
     * @param replicates 2 or more
     * @param trials of each, 1 or more
     * @param rate in [0, 1]
     */
    public static ReplicateRange of(int replicates, int trials, double rate) {
        if (replicates < 2 || trials < 1 || !(rate >= 0 && rate <= 1)) {
            throw new IllegalArgumentException(replicates + " replicates of " + trials + " at rate " + rate
                    + ": expected 2 or more, 1 or more, 0 to 1");
        }
        var below = new double[trials + 2];
        double[] chance = chances(trials, rate);
        for (int x = 0; x <= trials; x++) {
            below[x + 1] = below[x] + chance[x];
        }
        return new ReplicateRange(replicates, below);
    }

    /** Probabilities of 0 to n successes, by their ratios from the likeliest on. */
    private static double[] chances(int n, double rate) {
        var chance = new double[n + 1];
        if (rate == 0 || rate == 1) {
            chance[rate == 0 ? 0 : n] = 1;
            return chance;
        }
        int mode = (int) Math.min(n, Math.floor((n + 1) * rate));
        double odds = rate / (1 - rate);
        chance[mode] = Math.exp(Gamma.logGamma(n + 1.0)
                - Gamma.logGamma(mode + 1.0)
                - Gamma.logGamma(n - mode + 1.0)
                + mode * Math.log(rate)
                + (n - mode) * Math.log1p(-rate));
        for (int x = mode + 1; x <= n; x++) {
            chance[x] = chance[x - 1] * (n - x + 1) / x * odds;
        }
        for (int x = mode - 1; x >= 0; x--) {
            chance[x] = chance[x + 1] * (x + 1) / (n - x) / odds;
        }
        return chance;
    }

    /** P(range >= a number), in [0, 1]. */
    public double atLeast(int range) {
        if (range <= 0) {
            return 1;
        }
        double within = 0;
        int trials = below.length - 2;
        for (int x = 0; x <= trials; x++) {
            double top = below[Math.min(trials, x + range - 1) + 1];
            within += Math.pow(top - below[x], replicates) - Math.pow(top - below[x + 1], replicates);
        }
        return Math.min(1, Math.max(0, 1 - within));
    }

    /** The smallest range that is exceeded with a probability of no more than this. */
    public int tolerance(double probability) {
        int range = 0;
        while (atLeast(range + 1) > probability) {
            range++;
        }
        return range;
    }
}
