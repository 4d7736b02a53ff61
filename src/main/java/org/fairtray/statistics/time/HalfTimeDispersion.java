package org.fairtray.statistics.time;

import java.util.List;
import java.util.Optional;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Vectors;

/**
 * By how much trays pull the time to half of their common curve about more than independent seeds would.
 *
 * <p>With U_i the score of tray i in (logit d, log b, log t50), I_i its expected information and V the inverse of the sum
 * of I_i, tray i moves log t50 by the last element v_i of V U_i; the v_i add up to 0, and
 *
 * <pre>  D = T / (T - 1) * (sum over i of v_i^2) / V_tt</pre>
 *
 * is about 1 where seeds are independent. It takes in only how trays differ in their time: trays that differ in their
 * final rate alone leave it as it is. Where d is 1, it is no parameter. The square root of D times the standard error of
 * log t50 is then Liang and Zeger's, of trays as clusters.
 *
 * <p>Source: Liang and Zeger (1986), Biometrika 73, 13-22.
 */
public final class HalfTimeDispersion {
    private final LogLogisticCurve curve;
    private final int parameters;

    /** A tray's score and information. */
    private record Part(double[] score, double[][] information) {}

    private HalfTimeDispersion(LogLogisticCurve curve) {
        this.curve = curve;
        this.parameters = curve.endsAtOne() ? 2 : 3;
    }

    /**
     * The dispersion of trays about their curve.
     *
     * @param curve fitted to the trays
     * @param trays which may have been read on different days
     * @return D, 0 or more; empty where there are fewer than two trays
     */
    public static Optional<Double> of(LogLogisticCurve curve, List<DayCounts> trays) {
        return trays.size() < 2 ? Optional.empty() : new HalfTimeDispersion(curve).of(trays);
    }

    private Optional<Double> of(List<DayCounts> trays) {
        var parts = trays.stream().map(this::part).toList();
        var information = new double[parameters][parameters];
        for (var part : parts) {
            for (int a = 0; a < parameters; a++) {
                Vectors.takeAway(information[a], -1, part.information()[a]);
            }
        }
        int last = parameters - 1;
        return Cholesky.of(information).map(Cholesky::inverse).map(covariance -> {
            double squares = 0;
            for (var part : parts) {
                double pull = Vectors.dot(covariance[last], part.score());
                squares += pull * pull;
            }
            int n = parts.size();
            return squares / covariance[last][last] * n / (n - 1);
        });
    }

    private Part part(DayCounts tray) {
        var part = new Part(new double[parameters], new double[parameters][parameters]);
        double rate = 0;
        double[] slope = new double[parameters];
        for (int i = 0; i < tray.size(); i++) {
            double time = tray.days().get(i);
            double[] next = slope(time);
            double[] change = next.clone();
            Vectors.takeAway(change, 1, slope);
            add(part, tray.seeds(), tray.events().get(i), curve.rate(time) - rate, change);
            rate = curve.rate(time);
            slope = next;
        }
        double[] never = new double[parameters];
        Vectors.takeAway(never, 1, slope);
        add(part, tray.seeds(), tray.seeds() - tray.germinated(), 1 - rate, never);
        return part;
    }

    private void add(Part part, long seeds, long found, double share, double[] slope) {
        if (share > 0) {
            Vectors.takeAway(part.score(), -found / share, slope);
            for (int a = 0; a < parameters; a++) {
                Vectors.takeAway(part.information()[a], -seeds * slope[a] / share, slope);
            }
        }
    }

    /** How F(t) moves with logit d, log b and log t50; without the first where d is 1. */
    private double[] slope(double time) {
        double rate = curve.rate(time);
        double still = rate * (1 - rate / curve.finalRate());
        double u = curve.steepness() * Math.log(time / curve.halfTime());
        return curve.endsAtOne()
                ? new double[] {still * u, -curve.steepness() * still}
                : new double[] {rate * (1 - curve.finalRate()), still * u, -curve.steepness() * still};
    }
}
