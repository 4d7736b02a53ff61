package org.fairtray.report.charts;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.font.FontRenderContext;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleInsets;

/**
 * How every chart looks: dark ink on the page's own background, hairlines, words beside what they mean. Lines are told
 * apart by dash and marker first, so that a grey print loses nothing; colour only helps.
 */
final class ChartLook {
    /** Units across. A phone's column is about 330 pixels, so 13 units of text are 10 pixels there. */
    static final int WIDTH = 420;

    static final Color INK = new Color(0x24211c);
    static final Color SOFT_INK = new Color(0x57524a);
    static final Color HAIRLINE = new Color(0xe0dccf);
    static final Color ZONE = new Color(0xe9e4d4);
    static final Color PAPER = new Color(0xfffefb);
    static final Color NOTHING = new Color(0, 0, 0, 0);

    static final Font TEXT = new Font(Font.SANS_SERIF, Font.PLAIN, 13);
    static final Font STRONG = new Font(Font.SANS_SERIF, Font.BOLD, 13);

    static final Stroke THIN = new BasicStroke(1f);
    static final Stroke LINE = new BasicStroke(1.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    static final Stroke THICK = new BasicStroke(3f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);

    static final Stroke DASHED =
            new BasicStroke(1.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, new float[] {4, 3}, 0);

    static final Shape DOT = new Ellipse2D.Double(-3.2, -3.2, 6.4, 6.4);
    static final Shape DIAMOND = polygon(0, -6, 6, 0, 0, 6, -6, 0);

    private static final FontRenderContext MEASURE = new FontRenderContext(null, true, true);

    private static final List<Color> COLOURS = List.of(
            new Color(0x1f5134),
            new Color(0x9a3412),
            new Color(0x1e3f73),
            new Color(0x6b5200),
            new Color(0x6a2b66),
            new Color(0x3a3a3a));
    private static final List<Stroke> DASHES =
            List.of(LINE, dash(7, 4), dash(2, 4), dash(12, 4, 2, 4), dash(4, 2, 4, 6), dash(16, 5));
    private static final List<Shape> MARKERS = List.of(
            new Ellipse2D.Double(-3.8, -3.8, 7.6, 7.6),
            new Rectangle2D.Double(-3.4, -3.4, 6.8, 6.8),
            polygon(0, -4.6, 4.4, 3.6, -4.4, 3.6),
            polygon(0, -5, 5, 0, 0, 5, -5, 0),
            polygon(-4.4, -3.6, 4.4, -3.6, 0, 4.6),
            polygon(
                    -1.5, -4.5, 1.5, -4.5, 1.5, -1.5, 4.5, -1.5, 4.5, 1.5, 1.5, 1.5, 1.5, 4.5, -1.5, 4.5, -1.5, 1.5,
                    -4.5, 1.5, -4.5, -1.5, -1.5, -1.5));

    /** How many lines one panel tells apart. */
    static final int LINES = MARKERS.size();

    private ChartLook() {}

    static Color colour(int line) {
        return COLOURS.get(line % LINES);
    }

    static Stroke dash(int line) {
        return DASHES.get(line % LINES);
    }

    static Shape marker(int line) {
        return MARKERS.get(line % LINES);
    }

    /** Every second marker is hollow, which grey keeps apart better than shape alone. */
    static boolean hollow(int line) {
        return line % 2 == 1;
    }

    /** A plot in the common look, without data. */
    static XYPlot plot(NumberAxis across, NumberAxis up) {
        var plot = new XYPlot(null, across, up, null);
        plot.setBackgroundPaint(null);
        plot.setOutlineVisible(false);
        plot.setDomainGridlinePaint(HAIRLINE);
        plot.setRangeGridlinePaint(HAIRLINE);
        plot.setDomainGridlineStroke(THIN);
        plot.setRangeGridlineStroke(THIN);
        plot.setInsets(new RectangleInsets(2, 8, 2, 15));
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        return plot;
    }

    static JFreeChart chart(XYPlot plot) {
        var chart = new JFreeChart(null, TEXT, plot, false);
        chart.setBackgroundPaint(null);
        chart.setPadding(RectangleInsets.ZERO_INSETS);
        return chart;
    }

    static NumberAxis axis(Axis axis) {
        var number = new NumberAxis(fit(axis.label(), STRONG, WIDTH - 60));
        number.setRange(axis.low(), axis.high());
        number.setLabelFont(STRONG);
        number.setLabelPaint(INK);
        number.setTickLabelFont(TEXT);
        number.setTickLabelPaint(INK);
        number.setAxisLinePaint(SOFT_INK);
        number.setTickMarkPaint(SOFT_INK);
        number.setNumberFormatOverride(format());
        return number;
    }

    /** The text, cut with an ellipsis where it would be wider than so many units. */
    static String fit(String text, Font font, double units) {
        var line = Visible.text(text).replaceAll("\\s+", " ").strip();
        if (width(line, font) <= units) {
            return line;
        }
        // Cut roughly first: names of thousands of letters must not be measured letter by letter.
        int end = line.offsetByCodePoints(0, Math.min(line.codePointCount(0, line.length()), (int) (units / 3)));
        while (end > 1 && width(line.substring(0, end) + "…", font) > units) {
            end = line.offsetByCodePoints(end, -1);
        }
        return line.substring(0, end).strip() + "…";
    }

    static double width(String text, Font font) {
        return text.isEmpty() ? 0 : font.getStringBounds(text, MEASURE).getWidth();
    }

    private static DecimalFormat format() {
        var symbols = DecimalFormatSymbols.getInstance(Locale.ROOT);
        symbols.setMinusSign('\u2212');
        return new DecimalFormat("0.####", symbols);
    }

    private static Stroke dash(float... lengths) {
        return new BasicStroke(1.8f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, lengths, 0);
    }

    private static Shape polygon(double... xy) {
        var path = new Path2D.Double();
        path.moveTo(xy[0], xy[1]);
        for (int i = 2; i < xy.length; i += 2) {
            path.lineTo(xy[i], xy[i + 1]);
        }
        path.closePath();
        return path.createTransformedShape(new AffineTransform());
    }
}
