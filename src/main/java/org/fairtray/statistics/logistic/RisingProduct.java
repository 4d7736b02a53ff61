package org.fairtray.statistics.logistic;

/**
 * The logarithm of a (a + t) (a + 2t) ... (a + (k - 1)t) with its first and second derivatives.
 *
 * <p>Short products are added up. Of long ones only the first factors are; the sum f(J) + ... + f(k - 1) of the rest is by
 * Euler's and Maclaurin's formula, the integral of f from J to k less half of f(k) - f(J), plus f'/12 - f'''/720 + ... at
 * k less at J. With r = t / (a + xt), at most 1/J, the terms are r/12 - r^3/360 + r^5/1260 - r^7/1680, and what is left out
 * is below 1e-14. It holds for every t from 0 on, where the difference of log gamma functions loses all its digits.
 *
 * <p>Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 23.1.30 and 6.1.40.
 *
 * @param value the logarithm
 * @param byA its derivative by a; the others likewise
 */
record RisingProduct(double value, double byA, double byT, double byAA, double byAT, double byTT) {
    private static final int SHORT = 48;
    private static final int HEAD = 20;

    /**
     * The product of k factors.
     *
     * @param k 0 or more
     * @param a above 0
     * @param t 0 or more
     */
    static RisingProduct of(long k, double a, double t) {
        var head = added(k <= SHORT ? k : HEAD, a, t);
        return k <= SHORT
                ? head
                : head.plus(1, integral(HEAD, (double) k - HEAD, a, t))
                        .plus(1, correction((double) k, a, t))
                        .plus(-1, correction(HEAD, a, t));
    }

    private static RisingProduct added(long k, double a, double t) {
        double logarithm = 0;
        double product = 1;
        var sums = new double[5];
        for (long j = 0; j < k; j++) {
            double inverse = 1 / (a + j * t);
            product *= a + j * t;
            if (product < 1e-200 || product > 1e200 || j == k - 1) {
                logarithm += Math.log(product);
                product = 1;
            }
            sums[0] += inverse;
            sums[1] += j * inverse;
            sums[2] -= inverse * inverse;
            sums[3] -= j * inverse * inverse;
            sums[4] -= j * inverse * (j * inverse);
        }
        return new RisingProduct(logarithm, sums[0], sums[1], sums[2], sums[3], sums[4]);
    }

    /** The integral from {@code from} to {@code from + n}, by the moments of 1/(1 + ws) and its square over s from 0 to 1. */
    private static RisingProduct integral(double from, double n, double a, double t) {
        double start = a + from * t;
        double w = n * t / start;
        double h10 = moment(w, 0, 1);
        double h11 = moment(w, 1, 1);
        double each = n / start;
        double square = each / start;
        double h20 = 1 / (1 + w);
        double h21 = moment(w, 1, 2);
        double h22 = moment(w, 2, 2);
        return new RisingProduct(
                n * (Math.log(start) + w * (h10 - h11)),
                each * h10,
                each * (from * h10 + n * h11),
                -square * h20,
                -square * (from * h20 + n * h21),
                -square * (from * from * h20 + 2 * from * n * h21 + n * n * h22));
    }

    /** The integral of s^power / (1 + ws)^order over s from 0 to 1; order 1 or 2, power 0 to order. */
    private static double moment(double w, int power, int order) {
        if (w < 0.1) {
            double sum = 0;
            double term = 1;
            for (int i = 0; i < 18; i++) {
                sum += (order == 1 ? 1 : i + 1) * term / (i + power + 1);
                term *= -w;
            }
            return sum;
        }
        double log = Math.log1p(w);
        if (order == 1) {
            return power == 0 ? log / w : (w - log) / (w * w);
        }
        return power == 1 ? (log - w / (1 + w)) / (w * w) : (w * (2 + w) / (1 + w) - 2 * log) / (w * w * w);
    }

    /** What Euler and Maclaurin add at x = {@code at}; by v = a + xt and t first, then by a and t. */
    private static RisingProduct correction(double at, double a, double t) {
        double v = a + at * t;
        double r = t / v;
        double r2 = r * r;
        double value = r * (1.0 / 12 - r2 * (1.0 / 360 - r2 * (1.0 / 1260 - r2 / 1680)));
        double once = 1.0 / 12 - r2 * (3.0 / 360 - r2 * (5.0 / 1260 - r2 * 7 / 1680));
        double twice = -r * (6.0 / 360 - r2 * (20.0 / 1260 - r2 * 42 / 1680));
        double byV = (-0.5 - r * once) / v;
        double byVV = (0.5 + r * (2 * once + r * twice)) / (v * v);
        double byVT = -(once + r * twice) / (v * v);
        return new RisingProduct(
                value - Math.log(v) / 2,
                byV,
                at * byV + once / v,
                byVV,
                at * byVV + byVT,
                at * at * byVV + 2 * at * byVT + twice / (v * v));
    }

    private RisingProduct plus(double times, RisingProduct other) {
        return new RisingProduct(
                value + times * other.value,
                byA + times * other.byA,
                byT + times * other.byT,
                byAA + times * other.byAA,
                byAT + times * other.byAT,
                byTT + times * other.byTT);
    }
}
