package org.fairtray.sizing.simulation;

/**
 * Beta-binomial counts from uniform numbers by inversion: the least count whose cumulative probability lies above the
 * number. The same number gives a count that never falls as the rate rises, so that two trials drawn from the same numbers
 * differ by what differs between them and little else. A workspace, for one thread.
 *
 * <p>With intraclass correlation ρ, θ = ρ / (1 − ρ) and rate p, neighbouring probabilities have the ratio
 *
 * <pre>  P(k + 1) / P(k) = (n − k)(p + kθ) / ((k + 1)(1 − p + (n − k − 1)θ))</pre>
 *
 * which at θ = 0 is that of the binomial distribution. They are added up from next to the mean outwards.
 *
 * <p>Source: Johnson, Kemp and Kotz (2005), Univariate Discrete Distributions, 3rd ed., section 6.2 (from memory).
 */
final class BetaBinomialCounts {
    /** A probability this small beside that next to the mean comes out of no uniform number. */
    private static final double NOTHING = 1e-30;

    private final int trials;
    private final double theta;
    private final double[] weight;

    /**
     * Counts of so many seeds.
     *
     * @param trials n, 1 or more
     * @param correlation ρ of two seeds, in [0, 1)
     */
    BetaBinomialCounts(int trials, double correlation) {
        this.trials = trials;
        this.theta = correlation / (1 - correlation);
        this.weight = new double[trials + 1];
    }

    /**
     * The count of a uniform number.
     *
     * @param rate p, in [0, 1]
     * @param uniform in [0, 1)
     */
    int at(double rate, double uniform) {
        if (rate <= 0 || rate >= 1) {
            return rate <= 0 ? 0 : trials;
        }
        int middle = (int) Math.rint(trials * rate);
        weight[middle] = 1;
        double sum = 1;
        int most = middle;
        while (most < trials && weight[most] > NOTHING) {
            weight[most + 1] = weight[most] * ratio(most, rate);
            sum += weight[++most];
        }
        int least = middle;
        while (least > 0 && weight[least] > NOTHING) {
            weight[least - 1] = weight[least] / ratio(least - 1, rate);
            sum += weight[--least];
        }
        double left = uniform * sum;
        int count = least;
        for (left -= weight[count]; left >= 0 && count < most; left -= weight[count]) {
            count++;
        }
        return count;
    }

    private double ratio(int k, double rate) {
        return (trials - k) * (rate + k * theta) / ((k + 1) * (1 - rate + (trials - k - 1) * theta));
    }
}
