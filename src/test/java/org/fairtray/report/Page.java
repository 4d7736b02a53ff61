package org.fairtray.report;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** A page read back by an XML parser, which accepts no slip that a browser would forgive. */
final class Page {
    private final String html;
    private final Document document;

    Page(String html) {
        this.html = html;
        try {
            document = DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new InputSource(new StringReader(html.replaceFirst("<!DOCTYPE html>", ""))));
        } catch (SAXException | IOException | ParserConfigurationException e) {
            throw new AssertionError("not well-formed: " + e.getMessage(), e);
        }
    }

    String html() {
        return html;
    }

    /** Everything that is read, drawn words included, the style sheet not. */
    String text() {
        var body = (Element) document.getElementsByTagName("body").item(0);
        return body.getTextContent();
    }

    List<Element> elements() {
        return all("*");
    }

    List<Element> all(String name) {
        var nodes = document.getElementsByTagName(name);
        var elements = new ArrayList<Element>();
        for (int i = 0; i < nodes.getLength(); i++) {
            elements.add((Element) nodes.item(i));
        }
        return elements;
    }

    static List<String> attributeNames(Element element) {
        var names = new ArrayList<String>();
        for (int i = 0; i < element.getAttributes().getLength(); i++) {
            names.add(element.getAttributes().item(i).getNodeName());
        }
        return names;
    }
}
