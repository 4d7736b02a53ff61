package org.fairtray.report.charts;

import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;

/**
 * Writes a drawing's elements as text, and only what makes a difference: what an element would inherit anyway is left
 * out, as are clips, since no chart draws beyond its plot, and empty groups. Drawings come out a third as long.
 */
final class SvgText {
    private static final Set<String> NEEDLESS = Set.of(
            "clip-path",
            "color-interpolation",
            "color-rendering",
            "image-rendering",
            "shape-rendering",
            "text-rendering",
            "stroke-miterlimit",
            "xmlns:xlink",
            "xml:space");
    private static final Set<String> INHERITED = Set.of(
            "fill",
            "fill-opacity",
            "font-family",
            "font-size",
            "font-style",
            "font-weight",
            "stroke",
            "stroke-dasharray",
            "stroke-dashoffset",
            "stroke-linecap",
            "stroke-linejoin",
            "stroke-opacity",
            "stroke-width");

    private final StringBuilder text = new StringBuilder(8192);

    private SvgText() {}

    static String of(Element root) {
        var writer = new SvgText();
        writer.element(root, Map.of());
        return writer.text.toString();
    }

    private void element(Element element, Map<String, String> inherited) {
        var name = element.getTagName();
        var children = element.getChildNodes();
        if (name.equals("defs") || (name.equals("g") && children.getLength() == 0)) {
            return;
        }
        var here = new HashMap<>(inherited);
        int start = text.length();
        text.append('<').append(name);
        attributes(element, inherited, here);
        // A group that changes nothing needs no tags of its own.
        boolean bare = name.equals("g") && text.length() == start + 2;
        if (bare) {
            text.setLength(start);
            children(children, here);
        } else if (children.getLength() == 0) {
            text.append("/>");
        } else {
            text.append('>');
            children(children, here);
            text.append("</").append(name).append('>');
        }
    }

    private void attributes(Element element, Map<String, String> inherited, Map<String, String> here) {
        var attributes = element.getAttributes();
        for (int i = 0; i < attributes.getLength(); i++) {
            var key = attributes.item(i).getNodeName();
            var value = attributes.item(i).getNodeValue();
            if (NEEDLESS.contains(key)) {
                continue;
            }
            if (INHERITED.contains(key)) {
                here.put(key, value);
                if (value.equals(inherited.get(key))) {
                    continue;
                }
            }
            text.append(' ').append(key).append("=\"");
            escaped(value);
            text.append('"');
        }
    }

    private void children(NodeList children, Map<String, String> here) {
        for (int i = 0; i < children.getLength(); i++) {
            var child = children.item(i);
            if (child instanceof Element element) {
                element(element, here);
            } else if (child.getNodeType() == Node.TEXT_NODE) {
                escaped(child.getNodeValue());
            }
        }
    }

    private void escaped(String value) {
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            switch (c) {
                case '<' -> text.append("&lt;");
                case '>' -> text.append("&gt;");
                case '&' -> text.append("&amp;");
                case '"' -> text.append("&quot;");
                default -> text.append(c);
            }
        }
    }
}
