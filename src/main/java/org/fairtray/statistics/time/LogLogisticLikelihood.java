package org.fairtray.statistics.time;

import java.util.List;
import org.fairtray.statistics.Ascent;
import org.fairtray.statistics.logistic.LogisticFit;

/**
 * The log-likelihood of counts in spells under F(t) = d s(t), s(t) = 1 / (1 + exp(-u)), u = b log(t / t50), without the
 * multinomial constant: each seed adds log(F(until) - F(after)), with 1 for F at infinity.
 *
 * <p>Places are logit d, log b and log t50. With d' the derivative of d by its logit, s' and s'' those of s by u:
 *
 * <pre>  F by logit d  d' s        twice  d'' s,  d'' = d' (1 - 2d);  with another  d' / d times its derivative
 *   F by log b    d s' u      twice  d (s'' u^2 + s' u);          both  -b d (s'' u + s')
 *   F by log t50  -b d s'     twice  b^2 d s''</pre>
 */
final class LogLogisticLikelihood {
    private final List<Spell> spells;

    LogLogisticLikelihood(List<Spell> spells) {
        this.spells = spells;
    }

    /** A number with its derivatives by the three places. */
    private record Curve(double value, double[] slope, double[][] second) {
        static Curve flat(double value) {
            return new Curve(value, new double[3], new double[3][3]);
        }
    }

    /** The surface over logit d, log b, log t50. */
    Ascent.Point free(double[] place) {
        return point(LogisticFit.rate(place[0]), LogisticFit.rate(-place[0]), place[1], place[2]);
    }

    /** The surface over log b and log t50, with d held in (0, 1]. */
    Ascent.Point held(double rate, double[] place) {
        var all = point(rate, 1 - rate, place[0], place[1]);
        double[][] c = all.curvature();
        return new Ascent.Point(all.value(), new double[] {all.slope()[1], all.slope()[2]}, new double[][] {
            {c[1][1], c[1][2]}, {c[2][1], c[2][2]}
        });
    }

    private Ascent.Point point(double rate, double rest, double logSteepness, double logHalf) {
        double value = 0;
        var slope = new double[3];
        var curvature = new double[3][3];
        for (var spell : spells) {
            var low = curve(spell.after(), rate, rest, logSteepness, logHalf);
            var high = curve(spell.until(), rate, rest, logSteepness, logHalf);
            double share = share(spell, rate, rest, logSteepness, logHalf);
            value += spell.seeds() * Math.log(share);
            add(spell.seeds(), share, low, high, slope, curvature);
        }
        return new Ascent.Point(value, slope, curvature);
    }

    private static void add(long seeds, double share, Curve low, Curve high, double[] slope, double[][] curvature) {
        for (int a = 0; a < 3; a++) {
            double byA = (high.slope[a] - low.slope[a]) / share;
            slope[a] += seeds * byA;
            for (int b = 0; b < 3; b++) {
                double byB = (high.slope[b] - low.slope[b]) / share;
                curvature[a][b] += seeds * (byA * byB - (high.second[a][b] - low.second[a][b]) / share);
            }
        }
    }

    /** F(until) - F(after), without taking away nearly equal numbers. */
    private static double share(Spell spell, double rate, double rest, double logSteepness, double logHalf) {
        double low = exponent(spell.after(), logSteepness, logHalf);
        if (!spell.ended()) {
            return rest + rate * LogisticFit.rate(-low);
        }
        double high = exponent(spell.until(), logSteepness, logHalf);
        return rate * LogisticFit.rate(high) * LogisticFit.rate(-low) * -Math.expm1(low - high);
    }

    /** u; minus infinity at time 0. */
    static double exponent(double time, double logSteepness, double logHalf) {
        return Math.exp(logSteepness) * (Math.log(time) - logHalf);
    }

    private static Curve curve(double time, double rate, double rest, double logSteepness, double logHalf) {
        if (time == 0 || time == Double.POSITIVE_INFINITY) {
            return Curve.flat(time == 0 ? 0 : 1);
        }
        double steepness = Math.exp(logSteepness);
        double u = exponent(time, logSteepness, logHalf);
        double s = LogisticFit.rate(u);
        double once = s * LogisticFit.rate(-u);
        double twice = once * (1 - 2 * s);
        var slope = new double[] {rate * rest * s, rate * once * u, -rate * steepness * once};
        double both = -steepness * rate * (twice * u + once);
        return new Curve(rate * s, slope, new double[][] {
            {rate * rest * (rest - rate) * s, rest * slope[1], rest * slope[2]},
            {rest * slope[1], rate * (twice * u * u + once * u), both},
            {rest * slope[2], both, rate * steepness * steepness * twice}
        });
    }
}
