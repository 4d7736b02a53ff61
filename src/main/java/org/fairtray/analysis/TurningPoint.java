package org.fairtray.analysis;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;
import org.fairtray.analysis.models.LevelAverages;
import org.fairtray.analysis.models.LevelAverages.Contrast;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.findings.Numbers;
import org.fairtray.findings.Trend;
import org.fairtray.statistics.comparisons.BestLevel;
import org.fairtray.statistics.comparisons.LevelRange;

/**
 * The level at which the quadratic through a factor's averaged levels is highest, with Fieller's interval, in which no
 * spread counts as smaller than seeds alone would make it.
 */
final class TurningPoint {
    private final NumericLevels levels;
    private final LevelAverages averages;
    private final Yardstick yardstick;
    private final double alpha;

    TurningPoint(NumericLevels levels, LevelAverages averages, Yardstick yardstick, double alpha) {
        this.levels = levels;
        this.averages = averages;
        this.yardstick = yardstick;
        this.alpha = alpha;
    }

    /** The highest point; empty where the quadratic has none, or nothing is left to say how sure it is. */
    Optional<Trend.Best> best() {
        var curvature = averages.contrast(levels.polynomials().contrast(2));
        var slope = averages.contrast(slopeWeights(levels));
        var bend = yardstick.spread(curvature.slope(), curvature.linear());
        var rise = yardstick.spread(slope.slope(), slope.linear());
        if (bend.isEmpty() || rise.isEmpty()) {
            return Optional.empty();
        }
        double one = rise.get().verdictVariance();
        double other = bend.get().verdictVariance();
        double both = yardstick.correlation(slope.slope(), curvature.slope()) * Math.sqrt(one * other);
        double degrees = Math.min(rise.get().degreesOfFreedom(), bend.get().degreesOfFreedom());
        return turn(slope, curvature, new double[][] {{one, both}, {both, other}}, degrees);
    }

    private Optional<Trend.Best> turn(Contrast slope, Contrast curvature, double[][] covariance, double degrees) {
        return BestLevel.of(slope.value(), curvature.value(), covariance, degrees, 1 - alpha)
                .filter(b -> b.kind() == BestLevel.Kind.MAXIMUM)
                .map(this::written);
    }

    /**
     * The weights that make of the averages the coefficient of x in their quadratic. With P_2 = x^2 - s x + ..., it is the
     * coefficient of P_1 less s times that of P_2.
     */
    static double[] slopeWeights(NumericLevels levels) {
        double[] x = levels.scaled();
        var polynomials = levels.polynomials();
        double[] second = polynomials.values(2);
        double s = x[1] + x[0] - (second[1] - second[0]) / (x[1] - x[0]);
        double[] weights = polynomials.contrast(1);
        double[] bend = polynomials.contrast(2);
        for (int i = 0; i < weights.length; i++) {
            weights[i] -= s * bend[i];
        }
        return weights;
    }

    private Trend.Best written(BestLevel best) {
        double level = levels.unscaled(best.level());
        Double low = best.range().<Double>match(b -> levels.unscaled(b.low()), o -> null, a -> null);
        Double high = best.range().<Double>match(b -> levels.unscaled(b.high()), o -> null, a -> null);
        boolean inside = level >= levels.lowest() && level <= levels.highest();
        return new Trend.Best(
                levels.factor().name(),
                Numbers.orNull(level),
                low == null ? null : Numbers.orNull(low),
                high == null ? null : Numbers.orNull(high),
                inside,
                sentence(best.range(), level, inside));
    }

    private String sentence(LevelRange range, double level, boolean inside) {
        String interval = range.match(
                b -> " (" + Math.round(100 * (1 - alpha)) + " % interval " + digits(levels.unscaled(b.low())) + " to "
                        + levels.factor().describe(digits(levels.unscaled(b.high()))) + ")",
                o -> " (its interval has no end)",
                a -> " (its interval has no end)");
        return "The curve of " + levels.factor().name() + " is highest near "
                + levels.factor().describe(digits(level)) + interval + "." + warning(range, inside);
    }

    private String warning(LevelRange range, boolean inside) {
        String tried = "the levels that were tried, " + levels.names().get(0) + " to "
                + levels.factor().describe(levels.names().get(levels.names().size() - 1));
        boolean within = range.match(
                b -> levels.unscaled(b.low()) >= levels.lowest() && levels.unscaled(b.high()) <= levels.highest(),
                o -> false,
                a -> false);
        if (!inside) {
            return " That lies beyond " + tried + ", where nothing is known: take it as a hint which way to try.";
        }
        return within
                ? ""
                : " The best level may also lie beyond " + tried + "; only a trial with levels there can tell.";
    }

    /** A level to three digits. */
    static String digits(double level) {
        return new BigDecimal(level)
                .round(new MathContext(3))
                .stripTrailingZeros()
                .toPlainString()
                .replace("-", "−");
    }
}
