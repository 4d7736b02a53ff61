package org.fairtray.sheets.pdf;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.state.RenderingMode;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Mark;
import org.fairtray.sheets.paper.Page;

/** Pages as a PDF file. The same pages give the same bytes: no date is kept, and the file's number comes from its title. */
public final class PdfFile {
    private static final double POINTS_IN_MM = 72 / 25.4;
    /** Heavier letters are drawn with an outline, since the typeface has no bold. */
    private static final double OUTLINE_OF_BOLD = 0.035;

    private final PDPageContentStream stream;
    private final PDFont font;
    private final double paperHeight;

    private PdfFile(PDPageContentStream stream, PDFont font, double paperHeight) {
        this.stream = stream;
        this.font = font;
        this.paperHeight = paperHeight;
    }

    /**
     * The bytes of a PDF file.
     *
     * @param title what a reader shows as its name
     */
    public static byte[] of(List<Page> pages, String title, PdfTypeface face) {
        try (var document = new PDDocument();
                var bytes = new ByteArrayOutputStream()) {
            document.getDocumentInformation().setTitle(title);
            document.setDocumentId((long) title.hashCode());
            var font = PDType0Font.load(document, face.font(), true);
            for (var page : pages) {
                draw(document, page, font);
            }
            document.save(bytes);
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException("a PDF file in memory", e);
        }
    }

    private static void draw(PDDocument document, Page page, PDFont font) throws IOException {
        var paper = page.paper();
        var sheet = new PDPage(new PDRectangle(points(paper.width()), points(paper.height())));
        document.addPage(sheet);
        try (var stream = new PDPageContentStream(document, sheet)) {
            var file = new PdfFile(stream, font, paper.height());
            for (var mark : page.marks()) {
                file.draw(mark);
            }
        }
    }

    private void draw(Mark mark) throws IOException {
        if (mark instanceof Mark.Words words) {
            write(words);
        } else if (mark instanceof Mark.Line line) {
            stream.setLineWidth(points(line.thickness()));
            stream.moveTo(points(line.fromLeft()), up(line.fromTop()));
            stream.lineTo(points(line.toLeft()), up(line.toTop()));
            stream.stroke();
        } else if (mark instanceof Mark.Outline outline) {
            stream.setLineWidth(points(outline.thickness()));
            path(outline.box());
            stream.stroke();
        } else if (mark instanceof Mark.CameraCode code) {
            for (var dark : CameraSquares.of(code.content(), code.box())) {
                path(dark);
            }
            stream.fill();
        }
    }

    private void write(Mark.Words words) throws IOException {
        stream.beginText();
        stream.setFont(font, (float) words.size());
        stream.setRenderingMode(words.bold() ? RenderingMode.FILL_STROKE : RenderingMode.FILL);
        stream.setLineWidth((float) (words.size() * OUTLINE_OF_BOLD));
        stream.newLineAtOffset(points(words.left()), up(words.baseline()));
        stream.showText(words.text());
        stream.endText();
    }

    private void path(Box box) throws IOException {
        stream.addRect(points(box.left()), up(box.bottom()), points(box.width()), points(box.height()));
    }

    private float up(double fromTop) {
        return points(paperHeight - fromTop);
    }

    private static float points(double millimetres) {
        return (float) (millimetres * POINTS_IN_MM);
    }
}
