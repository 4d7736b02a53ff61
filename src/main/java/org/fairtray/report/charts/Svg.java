package org.fairtray.report.charts;

import java.awt.Graphics2D;
import java.util.function.Consumer;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGIDGenerator;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** Draws onto SVG that can stand inside an HTML page beside others: own ids, no prolog, a title and a description. */
final class Svg {
    private static final String NAMESPACE = "http://www.w3.org/2000/svg";

    private Svg() {}

    /**
     * A drawing as SVG text.
     *
     * @param id unique on the page; every id inside begins with it
     * @param title what it is, read out by a screen reader
     * @param description what it shows, in numbers
     * @param painter draws it, in units from 0 to {@link ChartLook#WIDTH} and {@code height}
     */
    static String draw(String id, String title, String description, int height, Consumer<Graphics2D> painter) {
        var document = document();
        var graphics = new SVGGraphics2D(context(document, id), false);
        painter.accept(graphics);
        var root = graphics.getRoot();
        frame(root, id, height);
        describe(document, root, id, title, description);
        return SvgText.of(root);
    }

    private static Document document() {
        try {
            return DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .getDOMImplementation()
                    .createDocument(NAMESPACE, "svg", null);
        } catch (ParserConfigurationException e) {
            throw new IllegalStateException("this Java can't make an XML document", e);
        }
    }

    private static SVGGeneratorContext context(Document document, String id) {
        var context = SVGGeneratorContext.createDefault(document);
        context.setIDGenerator(new SVGIDGenerator() {
            @Override
            public String generateID(String prefix) {
                return id + "-" + super.generateID(prefix);
            }
        });
        context.setPrecision(1);
        context.setComment("");
        return context;
    }

    private static void frame(Element root, String id, int height) {
        root.setAttribute("id", id);
        root.setAttribute("class", "chart");
        root.setAttribute("viewBox", "0 0 " + ChartLook.WIDTH + " " + height);
        root.setAttribute("width", Integer.toString(ChartLook.WIDTH));
        root.setAttribute("height", Integer.toString(height));
        root.setAttribute("role", "img");
        root.setAttribute("aria-labelledby", id + "-title " + id + "-desc");
        root.setAttribute("font-family", "sans-serif");
        root.setAttribute("font-size", "13px");
        root.setAttribute("stroke-linecap", "butt");
    }

    private static void describe(Document document, Element root, String id, String title, String description) {
        var first = root.getFirstChild();
        root.insertBefore(element(document, "title", id + "-title", title), first);
        root.insertBefore(element(document, "desc", id + "-desc", description), first);
    }

    private static Element element(Document document, String name, String id, String text) {
        var element = document.createElementNS(NAMESPACE, name);
        element.setAttribute("id", id);
        element.appendChild(document.createTextNode(text));
        return element;
    }
}
