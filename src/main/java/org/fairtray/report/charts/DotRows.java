package org.fairtray.report.charts;

import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jfree.chart.annotations.XYBoxAnnotation;
import org.jfree.chart.annotations.XYLineAnnotation;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * A row for each thing compared: its name over it, each tray a ring, the middle a diamond on a bar that shows how sure
 * it is. Names stand over their row, not beside it, so that a phone's whole width is left for the numbers.
 *
 * @param title what the chart is
 * @param description what it shows, in numbers
 * @param axis the scale that all rows share
 * @param rows from the top down, one or more
 * @param zone the part of the scale that is too near to zero to matter, if one was named
 */
public record DotRows(String title, String description, Axis axis, List<Row> rows, Optional<Zone> zone) {
    private static final int PLAIN_ROW = 36;
    private static final int ROW_WITH_DOTS = 48;
    private static final int SCALE = 48;

    /** Above so many dots a drawing grows heavy and shows no more. */
    public static final int MOST_DOTS = 400;

    /**
     * One row.
     *
     * @param label its name
     * @param value its middle and interval in words; may be empty
     * @param dots single trays
     * @param middle null where there is none, as are low and high
     * @param mark how its middle is drawn
     */
    public record Row(
            String label, String value, List<Double> dots, Double middle, Double low, Double high, Mark mark) {
        public Row {
            dots = List.copyOf(dots);
        }

        public Row(String label, String value, List<Double> dots, Double middle, Double low, Double high) {
            this(label, value, dots, middle, low, high, Mark.PLAIN);
        }
    }

    /**
     * How a middle is drawn.
     *
     * @param size of a square beside that of the largest, from 0 to 1; null for a diamond
     * @param farLow of a thin line beyond the bar, as is farHigh; null for none
     */
    public record Mark(Double size, Double farLow, Double farHigh) {
        /** A diamond. */
        public static final Mark PLAIN = new Mark(null, null, null);

        /** A square whose area shows how much it weighs. */
        public static Mark weighing(double share) {
            return new Mark(Math.sqrt(Math.max(0, Math.min(1, share))), null, null);
        }

        /** A diamond with a thin line for where others may lie. */
        public static Mark reaching(Double low, Double high) {
            return new Mark(null, low, high);
        }

        private Shape shape() {
            if (size == null) {
                return ChartLook.DIAMOND;
            }
            double side = 3 + 8 * size;
            return new Rectangle2D.Double(-side / 2, -side / 2, side, side);
        }
    }

    /** From one value to another. */
    public record Zone(double low, double high) {}

    public DotRows {
        rows = List.copyOf(rows);
    }

    /** The chart as SVG whose ids begin with the one given. */
    public String svg(String id) {
        boolean dotted = rows.stream().anyMatch(r -> !r.dots().isEmpty());
        int height = Math.max(1, rows.size()) * (dotted ? ROW_WITH_DOTS : PLAIN_ROW) + SCALE;
        var plot = plot();
        var bars = marks();
        // Bands and the line at zero stop short of the names, which stay readable on plain paper.
        double top = dotted ? 0.4 : 0.5;
        for (int i = 0; i < rows.size(); i++) {
            name(plot, i, dotted ? 0.31 : 0.42);
            ground(bars, i + top, i + 1);
            line(bars, axis.low(), axis.high(), i, ChartLook.HAIRLINE, ChartLook.THIN);
            interval(bars, i, dotted ? 0.82 : 0.74);
            reach(bars, i, dotted ? 0.82 : 0.74);
        }
        plot.setDataset(0, dots());
        plot.setRenderer(0, rings());
        plot.setDataset(1, middles(dotted ? 0.82 : 0.74));
        plot.setRenderer(1, bars);
        var chart = ChartLook.chart(plot);
        return Svg.draw(
                id,
                title,
                description,
                height,
                g -> chart.draw(g, new Rectangle2D.Double(0, 0, ChartLook.WIDTH, height)));
    }

    private XYPlot plot() {
        var down = ChartLook.axis(new Axis("", 0, Math.max(1, rows.size())));
        down.setInverted(true);
        down.setVisible(false);
        var plot = ChartLook.plot(ChartLook.axis(axis), down);
        plot.setRangeGridlinesVisible(false);
        return plot;
    }

    private void name(XYPlot plot, int row, double baseline) {
        double room = ChartLook.WIDTH - 28;
        var value = ChartLook.fit(rows.get(row).value(), ChartLook.STRONG, room * 0.6);
        var label = ChartLook.fit(
                rows.get(row).label(), ChartLook.TEXT, room - 10 - ChartLook.width(value, ChartLook.STRONG));
        words(plot, label, ChartLook.TEXT, axis.low(), row + baseline, TextAnchor.BASELINE_LEFT);
        words(plot, value, ChartLook.STRONG, axis.high(), row + baseline, TextAnchor.BASELINE_RIGHT);
    }

    private static void words(XYPlot plot, String text, Font font, double x, double y, TextAnchor anchor) {
        if (text.isEmpty()) {
            return;
        }
        var words = new XYTextAnnotation(text, x, y);
        words.setFont(font);
        words.setPaint(ChartLook.INK);
        words.setTextAnchor(anchor);
        words.setBackgroundPaint(ChartLook.PAPER);
        plot.addAnnotation(words);
    }

    /** The band and the line at zero of one row; the scale runs downwards, so the box is given from its foot. */
    private void ground(XYLineAndShapeRenderer under, double top, double bottom) {
        zone.ifPresent(z -> under.addAnnotation(
                new XYBoxAnnotation(z.low(), bottom, z.high(), top, null, null, ChartLook.ZONE), Layer.BACKGROUND));
        if (axis.low() < 0 && axis.high() > 0) {
            under.addAnnotation(
                    new XYLineAnnotation(0, top, 0, bottom, ChartLook.LINE, ChartLook.INK), Layer.BACKGROUND);
        }
    }

    private void interval(XYLineAndShapeRenderer bars, int index, double at) {
        var row = rows.get(index);
        if (row.low() != null && row.high() != null) {
            double low = Math.max(axis.low(), row.low());
            double high = Math.min(axis.high(), row.high());
            line(bars, low, high, index + at, ChartLook.SOFT_INK, ChartLook.THICK);
        }
    }

    /** Where others may lie, as far as the scale goes. */
    private void reach(XYLineAndShapeRenderer bars, int index, double at) {
        var mark = rows.get(index).mark();
        if (mark.farLow() != null && mark.farHigh() != null) {
            double low = Math.max(axis.low(), mark.farLow());
            double high = Math.min(axis.high(), mark.farHigh());
            line(bars, low, high, index + at, ChartLook.INK, ChartLook.DASHED);
        }
    }

    /** A line across, under the marks. */
    private static void line(
            XYLineAndShapeRenderer under, double from, double to, double at, Color paint, Stroke stroke) {
        under.addAnnotation(new XYLineAnnotation(from, at, to, at, stroke, paint), Layer.BACKGROUND);
    }

    private XYSeriesCollection dots() {
        var series = new XYSeries("trays", false);
        int all = rows.stream().mapToInt(r -> r.dots().size()).sum();
        int step = Math.max(1, (int) Math.ceil(all / (double) MOST_DOTS));
        for (int i = 0; i < rows.size(); i++) {
            var sorted = rows.get(i).dots().stream().sorted().toList();
            var shown = new ArrayList<Double>();
            for (int d = 0; d < sorted.size(); d += step) {
                shown.add(sorted.get(d));
                series.add(sorted.get(d).doubleValue(), i + 0.55 + aside(shown));
            }
        }
        return new XYSeriesCollection(series);
    }

    /** Moves a ring up or down where it would lie on the ones before it. */
    private double aside(List<Double> sorted) {
        int last = sorted.size() - 1;
        int near = 0;
        while (near < last && near < 4 && sorted.get(last) - sorted.get(last - near - 1) < 0.008 * axis.width()) {
            near++;
        }
        return new double[] {0, -0.13, 0.13, -0.06, 0.06}[near];
    }

    /** A series for each row, since marks may differ in size. */
    private XYSeriesCollection middles(double at) {
        var all = new XYSeriesCollection();
        for (int i = 0; i < rows.size(); i++) {
            var series = new XYSeries(i, false);
            if (rows.get(i).middle() != null) {
                series.add(rows.get(i).middle().doubleValue(), i + at);
            }
            all.addSeries(series);
        }
        return all;
    }

    private static XYLineAndShapeRenderer rings() {
        var renderer = shapes(ChartLook.DOT);
        renderer.setUseFillPaint(true);
        renderer.setSeriesFillPaint(0, ChartLook.PAPER);
        renderer.setDrawOutlines(true);
        renderer.setUseOutlinePaint(true);
        renderer.setSeriesOutlinePaint(0, ChartLook.colour(0));
        renderer.setSeriesOutlineStroke(0, ChartLook.LINE);
        return renderer;
    }

    private XYLineAndShapeRenderer marks() {
        var renderer = shapes(ChartLook.DIAMOND);
        for (int i = 0; i < rows.size(); i++) {
            renderer.setSeriesShape(i, rows.get(i).mark().shape());
            renderer.setSeriesPaint(i, ChartLook.INK);
        }
        return renderer;
    }

    private static XYLineAndShapeRenderer shapes(Shape shape) {
        var renderer = new XYLineAndShapeRenderer(false, true);
        renderer.setSeriesShape(0, shape);
        renderer.setSeriesPaint(0, ChartLook.INK);
        renderer.setDrawOutlines(false);
        return renderer;
    }
}
