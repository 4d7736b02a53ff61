package org.fairtray.report.charts;

import java.util.stream.DoubleStream;

/**
 * A scale along an edge of a chart.
 *
 * @param label what is shown, with its unit
 * @param low where it begins
 * @param high where it ends, above {@code low}
 */
public record Axis(String label, double low, double high) {

    /** @throws IllegalArgumentException if the ends are not finite or not in order */
    public Axis {
        if (!(low < high) || !Double.isFinite(low) || !Double.isFinite(high)) {
            throw new IllegalArgumentException("axis from " + low + " to " + high + ": expected a rising range");
        }
    }

    /** An axis that holds all values with a little room on both sides, and 1 wide at least where they are all one. */
    public static Axis around(String label, DoubleStream values) {
        var range = values.summaryStatistics();
        if (range.getCount() == 0) {
            return new Axis(label, 0, 1);
        }
        double width = range.getMax() - range.getMin();
        double room = width > 0 ? 0.06 * width : Math.max(0.5, 0.05 * Math.abs(range.getMax()));
        return new Axis(label, range.getMin() - room, range.getMax() + room);
    }

    double width() {
        return high - low;
    }
}
