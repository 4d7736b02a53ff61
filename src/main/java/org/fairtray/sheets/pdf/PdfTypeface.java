package org.fairtray.sheets.pdf;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.fairtray.sheets.paper.Typeface;

/** Liberation Sans, which comes with PDFBox (SIL Open Font License 1.1): Latin, Greek, Cyrillic. */
public final class PdfTypeface implements Typeface {
    private static final String FILE = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

    private final TrueTypeFont font;
    private final CmapLookup glyphs;
    private final Map<Integer, Double> widths = new HashMap<>();

    /** @throws UncheckedIOException if the program's own font can't be read */
    public PdfTypeface() {
        try (var file = Objects.requireNonNull(PDDocument.class.getResourceAsStream(FILE), FILE)) {
            font = new TTFParser().parse(RandomAccessReadBuffer.createBufferFromStream(file));
            glyphs = font.getUnicodeCmapLookup();
        } catch (IOException e) {
            throw new UncheckedIOException("the font of the sheets", e);
        }
    }

    TrueTypeFont font() {
        return font;
    }

    @Override
    public String shown(String text) {
        var shown = new StringBuilder();
        text.codePoints().forEach(letter -> {
            if (Character.isWhitespace(letter) || Character.isSpaceChar(letter)) {
                shown.append(' ');
            } else if (glyphs.getGlyphId(letter) > 0 && letter < Character.MIN_SUPPLEMENTARY_CODE_POINT) {
                shown.appendCodePoint(letter);
            } else {
                shown.append(MISSING);
            }
        });
        return shown.toString();
    }

    @Override
    public double width(String shown) {
        return shown.codePoints()
                .mapToDouble(letter -> widths.computeIfAbsent(letter, this::advance))
                .sum();
    }

    private double advance(int letter) {
        try {
            return (double) font.getAdvanceWidth(glyphs.getGlyphId(letter)) / font.getUnitsPerEm();
        } catch (IOException e) {
            throw new UncheckedIOException("the font of the sheets", e);
        }
    }
}
