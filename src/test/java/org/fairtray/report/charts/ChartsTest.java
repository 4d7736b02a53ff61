package org.fairtray.report.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.fairtray.report.charts.DotRows.Row;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;

class ChartsTest {
    private static final Axis PERCENT = new Axis("rate, %", 0, 100);

    private static DotRows rows(Row... rows) {
        return new DotRows("Rows", "as they are", PERCENT, List.of(rows), Optional.empty());
    }

    private static Row row(String label, Double middle, Double low, Double high, Double... dots) {
        return new Row(label, "value", List.of(dots), middle, low, high);
    }

    private static Element parse(String svg) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(svg)))
                .getDocumentElement();
    }

    static Stream<Named<String>> edges() {
        var forty = IntStream.range(0, 40)
                .mapToObj(i -> row("treatment " + i, 2.5 * i, 2.0 * i, 100.0, 1.0 * i))
                .toArray(Row[]::new);
        var sameDay = new Curves.Line("one reading", List.of(new Curves.Point(6, 0)));
        var unread = new Curves.Line("never read", List.of());
        var days = new Axis("day", 5, 7);
        return Stream.of(
                Named.of("no row", rows().svg("x")),
                Named.of(
                        "all zero", rows(row("a", 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)).svg("x")),
                Named.of(
                        "all hundred",
                        rows(row("a", 100.0, 100.0, 100.0, 100.0)).svg("x")),
                Named.of("nothing known", rows(row("", null, null, null)).svg("x")),
                Named.of("half an interval", rows(row("a", 5.0, 1.0, null)).svg("x")),
                Named.of(
                        "wider than the axis",
                        rows(row("a", 50.0, -40.0, 400.0)).svg("x")),
                Named.of("forty rows", rows(forty).svg("x")),
                Named.of(
                        "markup in names",
                        rows(row("<script>&\"'\u0007\u202e\ud800" + "y".repeat(5000), 5.0, 1.0, 9.0))
                                .svg("x")),
                Named.of("no line", new Curves("t", "1", days, PERCENT, List.of()).svg("x")),
                Named.of("one point", new Curves("t", "1", days, PERCENT, List.of(sameDay, unread)).svg("x")),
                Named.of("no point", new Scatter("t", "1", PERCENT, PERCENT, List.of()).svg("x")),
                Named.of(
                        "one tray",
                        new Scatter(
                                        "t",
                                        "1",
                                        Axis.around("", DoubleStream.of(0)),
                                        PERCENT,
                                        List.of(new Curves.Point(0, 0)))
                                .svg("x")));
    }

    @ParameterizedTest
    @MethodSource("edges")
    void drawsEdgesAsSoundSvg(String svg) throws Exception {
        var root = parse(svg);
        assertEquals("svg", root.getTagName());
        assertEquals("img", root.getAttribute("role"));
        assertTrue(root.getAttribute("viewBox").startsWith("0 0 420 "));
        assertEquals("title", root.getFirstChild().getNodeName());
        assertFalse(svg.contains("NaN") || svg.contains("<script"), svg);
        assertFalse(svg.contains("<?xml") || svg.contains("<!DOCTYPE"));
        var all = root.getElementsByTagName("*");
        for (int i = 0; i < all.getLength(); i++) {
            var id = ((Element) all.item(i)).getAttribute("id");
            assertTrue(id.isEmpty() || id.startsWith("x-"), id);
        }
    }

    @Test
    void drawsOneRingForEachTrayUpToALimit() throws Exception {
        var dots = IntStream.range(0, 3000).mapToObj(i -> i / 30.0).toArray(Double[]::new);
        int few = count(rows(row("a", 5.0, 1.0, 9.0, 10.0, 20.0, 30.0)).svg("x"));
        assertEquals(3, few);
        int many = count(rows(row("a", 5.0, 1.0, 9.0, dots)).svg("x"));
        assertTrue(many > DotRows.MOST_DOTS / 2 && many <= DotRows.MOST_DOTS, many + " rings");
    }

    /** Rings are filled with paper and then outlined; labels lie on paper too, but as rectangles. */
    private static int count(String svg) throws Exception {
        var paths = parse(svg).getElementsByTagName("path");
        int rings = 0;
        for (int i = 0; i < paths.getLength(); i++) {
            var path = (Element) paths.item(i);
            boolean round = path.getAttribute("d").contains("C");
            rings += round && path.getAttribute("fill").equals("rgb(255,254,251)") ? 1 : 0;
        }
        return rings;
    }

    @Test
    void shadesTheBandUnderEveryRow() throws Exception {
        var rows = List.of(row("a", 5.0, 1.0, 9.0), row("b", -5.0, -9.0, -1.0));
        var axis = new Axis("points", -20, 20);
        var zone = Optional.of(new DotRows.Zone(-10, 10));
        var bands = parse(new DotRows("t", "1", axis, rows, zone).svg("x")).getElementsByTagName("rect");
        var widths = new ArrayList<Double>();
        for (int i = 0; i < bands.getLength(); i++) {
            var band = (Element) bands.item(i);
            if (band.getAttribute("fill").equals("rgb(233,228,212)")) {
                widths.add(Double.valueOf(band.getAttribute("width")));
            }
        }
        assertEquals(2, widths.size());
        assertEquals(0.5 * (ChartLook.WIDTH - 8 - 15), widths.get(0), 2);
    }

    @Test
    void keepsWordsAsWords() throws Exception {
        var svg = rows(row("soak 8 h", 5.0, 1.0, 9.0)).svg("x");
        var words = new ArrayList<String>();
        var texts = parse(svg).getElementsByTagName("text");
        for (int i = 0; i < texts.getLength(); i++) {
            words.add(texts.item(i).getTextContent());
        }
        assertTrue(words.containsAll(List.of("soak 8 h", "value", "rate, %", "0", "100")), words.toString());
        assertTrue(svg.contains("font-family=\"sans-serif\""));
    }

    @Test
    void keepsTheNumbersAtTheLinesEndsApart() throws Exception {
        for (double height : new double[] {0, 50, 100}) {
            var lines = IntStream.range(0, 6)
                    .mapToObj(i -> new Curves.Line("l" + i, List.of(new Curves.Point(6, height))))
                    .toList();
            var svg = new Curves("t", "1", new Axis("day", 0, 7), PERCENT, lines).svg("x");
            var heights = endNumbers(svg, 6 * 20 + 6 + 198);
            assertEquals(6, heights.size());
            for (int i = 1; i < 6; i++) {
                assertTrue(heights.get(i - 1) - heights.get(i) > 10, heights + " at " + height);
            }
        }
    }

    /** The heights of numbers that stand right of the last day and above the axis. */
    private static List<Double> endNumbers(String svg, double axis) throws Exception {
        var texts = parse(svg).getElementsByTagName("text");
        var heights = new ArrayList<Double>();
        for (int i = 0; i < texts.getLength(); i++) {
            var text = (Element) texts.item(i);
            double y = Double.parseDouble(text.getAttribute("y"));
            if (Double.parseDouble(text.getAttribute("x")) > 300 && y < axis) {
                heights.add(y);
            }
        }
        return heights;
    }

    @Test
    void refusesMoreLinesThanItCanTellApart() {
        var lines = IntStream.range(0, 7)
                .mapToObj(i -> new Curves.Line("l" + i, List.of()))
                .toList();
        var e = assertThrows(
                IllegalArgumentException.class, () -> new Curves("t", "1", new Axis("day", 0, 7), PERCENT, lines));
        assertEquals("7 lines: expected 6 at most", e.getMessage());
    }

    @Test
    void makesAnAxisOfAnyValues() {
        var around = Axis.around("", DoubleStream.of(-20, 30));
        assertTrue(around.low() < -20 && around.high() > 30);
        assertEquals(new Axis("", 6.5, 7.5), Axis.around("", DoubleStream.of(7, 7)));
        assertEquals(new Axis("", 0, 1), Axis.around("", DoubleStream.empty()));
        var e = assertThrows(IllegalArgumentException.class, () -> new Axis("", 1, 1));
        assertEquals("axis from 1.0 to 1.0: expected a rising range", e.getMessage());
    }

    @Test
    void showsHiddenCharactersByTheirNumber() {
        assertEquals("a⟨U+202E⟩b⟨U+0000⟩\tc", Visible.text("a\u202eb\u0000\tc"));
        assertEquals("⟨U+DC00⟩⟨U+FFFF⟩😀", Visible.text("\udc00\uffff😀"));
        assertEquals("שלום\u200f", Visible.text("שלום\u200f"));
    }
}
