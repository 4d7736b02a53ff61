package org.fairtray.command;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.fairtray.sheets.Printing;
import org.fairtray.sheets.paper.Paper;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;

/** How sheets are printed. */
final class SheetOptions {
    private static final List<String> PAPERS = List.of("a4", "letter");

    @Option(
            names = "--paper",
            paramLabel = "PAPER",
            defaultValue = "a4",
            description =
                    "What sheets.pdf and key.pdf are printed on: ${COMPLETION-CANDIDATES}; ${DEFAULT-VALUE} without it.",
            completionCandidates = Papers.class,
            converter = ToPaper.class)
    private Paper paper;

    @Option(
            names = "--address",
            paramLabel = "URL",
            description =
                    "Where the counting page will be, such as http://192.168.1.20:8080: the camera code on a label"
                            + " then opens the tray's page. Without it the code holds the tray's name alone.",
            converter = ToAddress.class)
    private String address;

    Printing printing() {
        return new Printing(paper, Optional.ofNullable(address));
    }

    /** The names of papers, for help. */
    static final class Papers implements Iterable<String> {
        @Override
        public Iterator<String> iterator() {
            return PAPERS.iterator();
        }
    }

    /** A paper by its name. */
    static final class ToPaper implements ITypeConverter<Paper> {
        @Override
        public Paper convert(String name) {
            if (!PAPERS.contains(name.toLowerCase(Locale.ROOT))) {
                throw new TypeConversionException("found '" + name + "'; expected one of " + String.join(", ", PAPERS));
            }
            return Paper.valueOf(name.toUpperCase(Locale.ROOT));
        }
    }

    /** An address without anything after host and port but a path. */
    static final class ToAddress implements ITypeConverter<String> {
        @Override
        public String convert(String text) {
            if (!isAddress(text)) {
                throw new TypeConversionException(
                        "found '" + text + "'; expected an address such as http://192.168.1.20:8080");
            }
            return text.replaceAll("/+$", "");
        }

        private static boolean isAddress(String text) {
            try {
                var uri = new URI(text);
                return ("http".equals(uri.getScheme()) || "https".equals(uri.getScheme()))
                        && uri.getHost() != null
                        && uri.getQuery() == null
                        && uri.getFragment() == null;
            } catch (URISyntaxException e) {
                return false;
            }
        }
    }
}
