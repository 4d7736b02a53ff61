package org.fairtray.report.charts;

import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import org.jfree.chart.plot.IntervalMarker;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * One number against another, a ring for each thing.
 *
 * @param title what the chart is
 * @param description what it shows, in numbers
 * @param across one of the numbers
 * @param up the other
 * @param points one for each tray or trial
 * @param band half the height of the band about 0 where most should lie
 * @param line an upright line
 */
public record Scatter(
        String title,
        String description,
        Axis across,
        Axis up,
        List<Curves.Point> points,
        Optional<Double> band,
        Optional<Double> line) {
    private static final int HEIGHT = 260;
    private static final double USUAL = 2;

    /** What a model missed, up, against what it expected, across, both standardised: most lie within -2 and 2. */
    public Scatter(String title, String description, Axis across, Axis up, List<Curves.Point> points) {
        this(title, description, across, up, points, Optional.of(USUAL), Optional.empty());
    }

    public Scatter {
        points = List.copyOf(points);
    }

    /** The chart as SVG whose ids begin with the one given. */
    public String svg(String id) {
        var plot = ChartLook.plot(ChartLook.axis(across), ChartLook.axis(up));
        band.ifPresent(half -> {
            plot.addRangeMarker(
                    new IntervalMarker(-half, half, ChartLook.ZONE, ChartLook.THIN, null, null, 1f), Layer.BACKGROUND);
            plot.addRangeMarker(new ValueMarker(0, ChartLook.INK, ChartLook.THIN), Layer.BACKGROUND);
        });
        line.ifPresent(
                at -> plot.addDomainMarker(new ValueMarker(at, ChartLook.INK, ChartLook.LINE), Layer.BACKGROUND));
        var series = new XYSeries("trays", false);
        int step = Math.max(1, (int) Math.ceil(points.size() / (double) DotRows.MOST_DOTS));
        for (int i = 0; i < points.size(); i += step) {
            series.add(points.get(i).x(), points.get(i).y());
        }
        plot.setDataset(new XYSeriesCollection(series));
        var renderer = new XYLineAndShapeRenderer(false, true);
        renderer.setSeriesShape(0, ChartLook.DOT);
        renderer.setSeriesPaint(0, ChartLook.colour(0));
        renderer.setDrawOutlines(false);
        plot.setRenderer(renderer);
        var chart = ChartLook.chart(plot);
        return Svg.draw(
                id,
                title,
                description,
                HEIGHT,
                g -> chart.draw(g, new Rectangle2D.Double(0, 0, ChartLook.WIDTH, HEIGHT)));
    }
}
