package org.fairtray.report.charts;

import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * Lines over whole numbers, such as days or trays. Each line has a number that stands at its end and in the list above,
 * besides its own dash and marker.
 *
 * @param title what the chart is
 * @param description what it shows, in numbers
 * @param across the days, or trays
 * @param up the scale of the lines
 * @param lines at most {@link #MOST_LINES}
 * @param marks lines right across the chart, named where they stand
 */
public record Curves(String title, String description, Axis across, Axis up, List<Line> lines, List<Mark> marks) {
    /** More lines than this can't be told apart in one chart. */
    public static final int MOST_LINES = ChartLook.LINES;

    private static final int PLOT = 230;
    private static final int LIST_ROW = 20;
    private static final int PUSHES = 30;

    /** A line through some points; days without a reading have none. */
    public record Line(String label, List<Point> points) {
        public Line {
            points = List.copyOf(points);
        }
    }

    /** A value to hold the lines against: upright at so many across, or level at so much up. */
    public record Mark(String label, double at, boolean upright) {}

    /** Lines alone. */
    public Curves(String title, String description, Axis across, Axis up, List<Line> lines) {
        this(title, description, across, up, lines, List.of());
    }

    /** One point. */
    public record Point(double x, double y) {}

    /** @throws IllegalArgumentException if there are more lines than can be told apart */
    public Curves {
        lines = List.copyOf(lines);
        marks = List.copyOf(marks);
        if (lines.size() > MOST_LINES) {
            throw new IllegalArgumentException(lines.size() + " lines: expected " + MOST_LINES + " at most");
        }
    }

    /** The chart as SVG whose ids begin with the one given. */
    public String svg(String id) {
        int list = lines.size() * LIST_ROW + 6;
        return Svg.draw(id, title, description, list + PLOT, g -> {
            for (int i = 0; i < lines.size(); i++) {
                sample(g, i);
            }
            ChartLook.chart(plot()).draw(g, new Rectangle2D.Double(0, list, ChartLook.WIDTH, PLOT));
        });
    }

    /** The same as a file of its own, which unlike one inside a page must say that it is SVG. */
    public String file(String id) {
        return svg(id).replaceFirst("^<svg ", "<svg xmlns=\"http://www.w3.org/2000/svg\" ");
    }

    private XYPlot plot() {
        var days = ChartLook.axis(across);
        days.setStandardTickUnits(NumberAxis.createIntegerTickUnits());
        var plot = ChartLook.plot(days, ChartLook.axis(up));
        var data = new XYSeriesCollection();
        var renderer = new XYLineAndShapeRenderer(true, true);
        renderer.setUseFillPaint(true);
        for (int i = 0; i < lines.size(); i++) {
            var series = new XYSeries(i);
            lines.get(i).points().forEach(p -> series.add(p.x(), p.y()));
            data.addSeries(series);
            renderer.setSeriesPaint(i, ChartLook.colour(i));
            renderer.setSeriesFillPaint(i, ChartLook.hollow(i) ? ChartLook.PAPER : ChartLook.colour(i));
            renderer.setSeriesStroke(i, ChartLook.dash(i));
            renderer.setSeriesShape(i, ChartLook.marker(i));
        }
        plot.setDataset(data);
        plot.setRenderer(renderer);
        numberTheEnds(plot);
        marks.forEach(m -> add(plot, m));
        return plot;
    }

    private static void add(XYPlot plot, Mark mark) {
        var line = new ValueMarker(mark.at(), ChartLook.SOFT_INK, ChartLook.LINE);
        line.setLabel(mark.label());
        line.setLabelFont(ChartLook.TEXT);
        line.setLabelPaint(ChartLook.INK);
        line.setLabelBackgroundColor(ChartLook.NOTHING);
        if (mark.upright()) {
            line.setLabelAnchor(RectangleAnchor.BOTTOM_LEFT);
            line.setLabelTextAnchor(TextAnchor.BOTTOM_RIGHT);
            plot.addDomainMarker(line, Layer.BACKGROUND);
        } else {
            line.setLabelAnchor(RectangleAnchor.TOP_LEFT);
            line.setLabelTextAnchor(TextAnchor.BOTTOM_LEFT);
            plot.addRangeMarker(line, Layer.BACKGROUND);
        }
    }

    /** Numbers at the lines' ends, moved apart where lines end close together. */
    private void numberTheEnds(XYPlot plot) {
        var ends = new ArrayList<Integer>();
        for (int i = 0; i < lines.size(); i++) {
            if (!lines.get(i).points().isEmpty()) {
                ends.add(i);
            }
        }
        ends.sort(Comparator.comparingDouble(i -> end(i).y()));
        double[] at = apart(ends.stream().mapToDouble(i -> end(i).y()).toArray(), 0.075 * up.width());
        for (int i = 0; i < at.length; i++) {
            int line = ends.get(i);
            var number =
                    new XYTextAnnotation(Integer.toString(line + 1), end(line).x() + 0.03 * across.width(), at[i]);
            number.setFont(ChartLook.STRONG);
            number.setPaint(ChartLook.colour(line));
            number.setTextAnchor(TextAnchor.CENTER_LEFT);
            plot.addAnnotation(number);
        }
    }

    /** Pushes neighbours apart, both alike, until none is too near, and keeps all on the scale. */
    private double[] apart(double[] rising, double least) {
        double[] at = rising.clone();
        for (int round = 0; round < PUSHES; round++) {
            for (int i = 1; i < at.length; i++) {
                double push = (least - (at[i] - at[i - 1])) / 2;
                if (push > 0) {
                    at[i - 1] = Math.max(up.low() + (i - 1) * least, at[i - 1] - push);
                    at[i] = Math.min(up.high() - (at.length - 1 - i) * least, at[i] + push);
                }
            }
        }
        return at;
    }

    private Point end(int line) {
        var points = lines.get(line).points();
        return points.get(points.size() - 1);
    }

    private void sample(Graphics2D g, int line) {
        int y = line * LIST_ROW + LIST_ROW / 2;
        g.setPaint(ChartLook.colour(line));
        g.setStroke(ChartLook.dash(line));
        g.draw(new Line2D.Double(20, y, 62, y));
        g.setStroke(ChartLook.LINE);
        var marker = AffineTransform.getTranslateInstance(41, y).createTransformedShape(ChartLook.marker(line));
        g.setPaint(ChartLook.hollow(line) ? ChartLook.PAPER : ChartLook.colour(line));
        g.fill(marker);
        g.setPaint(ChartLook.colour(line));
        g.draw(marker);
        g.setFont(ChartLook.STRONG);
        g.drawString(Integer.toString(line + 1), 4, y + 5);
        g.setPaint(ChartLook.INK);
        g.setFont(ChartLook.TEXT);
        g.drawString(ChartLook.fit(lines.get(line).label(), ChartLook.TEXT, ChartLook.WIDTH - 76), 70, y + 5);
    }
}
