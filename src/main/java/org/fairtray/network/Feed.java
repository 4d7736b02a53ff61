package org.fairtray.network;

import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.fairtray.archive.Listed;
import org.fairtray.files.Wording;

/**
 * The newest trials as a feed that any reader of feeds takes.
 *
 * <p>Sources: RFC 4287, The Atom Syndication Format; RFC 6920, Naming Things with Hashes (what entries are called, so that a
 * trial keeps its name wherever the site is).
 *
 * @param address where the site will be found
 */
record Feed(String title, Optional<String> address, String version) {
    private static final String ATOM = "http://www.w3.org/2005/Atom";
    private static final int NEWEST = 50;

    /** @param newestFirst all trials */
    String of(List<Listed> newestFirst) {
        var text = new StringWriter();
        try {
            var xml = XMLOutputFactory.newFactory().createXMLStreamWriter(text);
            xml.writeStartDocument("UTF-8", "1.0");
            xml.writeStartElement("feed");
            xml.writeDefaultNamespace(ATOM);
            element(xml, "title", title);
            element(xml, "id", address.orElseGet(this::ownName));
            element(xml, "updated", updated(newestFirst));
            xml.writeStartElement("author");
            element(xml, "name", title);
            xml.writeEndElement();
            element(xml, "generator", "fairtray " + version);
            address.ifPresent(a -> link(xml, "self", a + "feed.xml"));
            for (var listed : newestFirst.subList(0, Math.min(NEWEST, newestFirst.size()))) {
                entry(xml, listed);
            }
            xml.writeEndElement();
            xml.writeEndDocument();
            xml.close();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("writing XML to memory failed", e);
        }
        return text + "\n";
    }

    /** Without an address, a name that follows from the title. */
    private String ownName() {
        return "urn:uuid:" + UUID.nameUUIDFromBytes(title.getBytes(StandardCharsets.UTF_8));
    }

    /** When the newest was added: the same archive gives the same feed. */
    private static String updated(List<Listed> newestFirst) {
        return newestFirst.isEmpty()
                ? Instant.EPOCH.toString()
                : newestFirst.get(0).added().toString();
    }

    private void entry(XMLStreamWriter xml, Listed listed) throws XMLStreamException {
        var trial = listed.trial();
        xml.writeStartElement("entry");
        element(xml, "title", trial.title());
        element(xml, "id", name(trial.id()));
        element(xml, "updated", listed.added().toString());
        link(xml, "alternate", address.orElse("") + SiteReports.report(trial.id()));
        element(
                xml,
                "summary",
                (trial.question().isEmpty() ? "" : trial.question() + " ")
                        + trial.trays() + " trays; "
                        + Wording.list(
                                trial.factors().stream().map(f -> f.name()).toList()) + ".");
        xml.writeEndElement();
    }

    /** The content's hash as a name. */
    private static String name(String id) {
        return "ni:///sha-256;"
                + Base64.getUrlEncoder()
                        .withoutPadding()
                        .encodeToString(HexFormat.of().parseHex(id));
    }

    private static void element(XMLStreamWriter xml, String name, String text) throws XMLStreamException {
        xml.writeStartElement(name);
        xml.writeCharacters(legal(text));
        xml.writeEndElement();
    }

    private static void link(XMLStreamWriter xml, String relation, String to) {
        try {
            xml.writeEmptyElement("link");
            xml.writeAttribute("rel", relation);
            xml.writeAttribute("href", to);
        } catch (XMLStreamException e) {
            throw new IllegalStateException("writing XML to memory failed", e);
        }
    }

    /** Without characters that XML can't hold. */
    private static String legal(String text) {
        return text.codePoints()
                .filter(c -> c == '\t'
                        || c == '\n'
                        || (c >= 0x20 && c < 0xd800)
                        || (c >= 0xe000 && c != 0xfffe && c != 0xffff))
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
