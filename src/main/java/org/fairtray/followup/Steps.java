package org.fairtray.followup;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.DoubleStream;
import org.fairtray.trial.Factor;

/** Numeric levels a grower would weigh or time: on a grid of 1, 2 or 5 parts of a power of ten, near a 16th of what was tried. */
final class Steps {
    private static final int PARTS = 16;

    private final BigDecimal grid;
    private final double lowest;
    private final double highest;

    Steps(Factor factor) {
        double[] levels = tried(factor);
        this.lowest = levels[0];
        this.highest = levels[levels.length - 1];
        this.grid = nice((highest - lowest) / PARTS);
    }

    private static double[] tried(Factor factor) {
        return factor.levels().stream()
                .mapToDouble(Double::parseDouble)
                .sorted()
                .toArray();
    }

    private static BigDecimal nice(double about) {
        int power = (int) Math.floor(Math.log10(about));
        double part = about / Math.pow(10, power);
        int step = part < 1.5 ? 1 : part < 3.5 ? 2 : part < 7.5 ? 5 : 10;
        return BigDecimal.valueOf(step).scaleByPowerOfTen(power);
    }

    /**
     * Levels below, at and above a best one, within what was tried; two steps away, or at the ends of its interval where
     * those are further.
     *
     * @param low of its interval, as is high; null where it has no end
     */
    List<String> around(double best, Double low, Double high) {
        double aside = 2 * grid.doubleValue();
        return near(
                low == null ? best - aside : Math.min(low, best - aside),
                best,
                high == null ? best + aside : Math.max(high, best + aside));
    }

    /** Different levels near these, within what was tried. */
    List<String> near(double... values) {
        return DoubleStream.of(values)
                .map(v -> Math.max(lowest, Math.min(highest, v)))
                .mapToObj(this::text)
                .distinct()
                .toList();
    }

    private String text(double value) {
        var rounded = BigDecimal.valueOf(value)
                .divide(grid, 0, RoundingMode.HALF_EVEN)
                .multiply(grid)
                .stripTrailingZeros();
        return rounded.signum() == 0 ? "0" : rounded.toPlainString();
    }

    /** The level as far beyond the largest that was tried as that lies beyond the one before it. */
    static String beyond(Factor factor) {
        double[] levels = tried(factor);
        double last = levels[levels.length - 1];
        var next = BigDecimal.valueOf(last)
                .add(BigDecimal.valueOf(last).subtract(BigDecimal.valueOf(levels[levels.length - 2])));
        return next.stripTrailingZeros().toPlainString();
    }

    static boolean isHighest(Factor factor, String level) {
        double[] levels = tried(factor);
        return Double.parseDouble(level) == levels[levels.length - 1];
    }
}
