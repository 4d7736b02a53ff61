package org.fairtray.sheets;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.fairtray.design.FrameDraw;
import org.fairtray.design.RotationSchedule;
import org.fairtray.files.TrialFiles;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.trial.Handling;

/** A trial, printed, and the printed files read again. */
final class Printed implements AutoCloseable {
    static final List<String> LEVELS = List.of("xhemp", "xcoir", "xpad");
    private static final int DOTS_IN_INCH = 200;

    final Sheets sheets;
    final PDDocument rack;
    final PDDocument key;
    private final PDFTextStripper stripper = new PDFTextStripper();

    Printed(TrialFiles files, Printing printing) throws IOException {
        this(files, files.handling(), printing);
    }

    Printed(TrialFiles files, Handling handling, Printing printing) throws IOException {
        sheets = new Sheets(files.trial(), files.layout().orElseThrow(), handling, printing);
        var bytes = sheets.files();
        rack = Loader.loadPDF(bytes.get(Sheets.SHEETS));
        key = Loader.loadPDF(bytes.get(Sheets.KEY));
        stripper.setSortByPosition(true);
    }

    static Printing on(Paper paper) {
        return new Printing(paper, Optional.empty());
    }

    /** The frames and moves of a plan, drawn from a seed. */
    static Handling drawn(TrialFiles files, long seed) {
        var layout = files.layout().orElseThrow();
        return new Handling(
                FrameDraw.of(files.trial(), layout, seed), RotationSchedule.of(files.trial(), layout, seed));
    }

    static TrialFiles read(String plan, String layout) {
        return TrialFiles.of(Map.of(
                "plan.yaml",
                plan.getBytes(StandardCharsets.UTF_8),
                "layout.csv",
                layout.getBytes(StandardCharsets.UTF_8)));
    }

    /** Three mats on a rack that is filled to the last place: trays T1, T2 ... */
    static TrialFiles rack(int stacks, int positions, String counting) {
        var plan = """
                format: 1
                trial: Three mats (invented)
                question: Which mat lets most roots through?
                crop: {name: beet, seed_lot: "L 7", thousand_seed_weight_g: 16.0}
                factors:
                  - {name: mat, levels: [xhemp, xcoir, xpad]}
                place:
                  - {name: stack, count: %d}
                  - {name: position, count: %d}
                definitions: {germinated: radicle 2 mm or longer}
                counting: %s
                outcomes:
                  - {name: through, kind: count, of: germinated, day: 6}
                  - {name: height_mm, kind: measure, day: 4}
                """.formatted(stacks, positions, counting);
        var layout = new StringBuilder("tray,stack,position,mat\n");
        IntStream.range(0, stacks * positions)
                .forEach(i -> layout.append(
                        "T%d,%d,%d,%s\n".formatted(i + 1, i / positions + 1, i % positions + 1, LEVELS.get(i % 3))));
        return read(plan, layout.toString());
    }

    Sheets.Part part(String name) {
        return sheets.parts().stream()
                .filter(p -> p.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    /** The text of pages that lie together, numbered from 1. */
    String text(PDDocument file, int first, int last) {
        try {
            stripper.setStartPage(first);
            stripper.setEndPage(last);
            return stripper.getText(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    String text(String part) {
        var found = part(part);
        return text(rack, found.first(), found.first() + found.pages().size() - 1);
    }

    /** What a camera sees in a box of a page, if it sees a code. */
    Optional<String> seen(int page, Box box) throws IOException {
        var image = new PDFRenderer(rack).renderImageWithDPI(page - 1, DOTS_IN_INCH, ImageType.GRAY);
        int left = dots(box.left());
        int top = dots(box.top());
        int width = Math.min(image.getWidth() - left, dots(box.width()));
        int height = Math.min(image.getHeight() - top, dots(box.height()));
        var pixels = image.getRGB(left, top, width, height, null, 0, width);
        var bitmap = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels)));
        try {
            return Optional.of(new QRCodeReader()
                    .decode(bitmap, Map.of(DecodeHintType.TRY_HARDER, true))
                    .getText());
        } catch (NotFoundException e) {
            return Optional.empty();
        } catch (ReaderException e) {
            throw new AssertionError("a code that can't be read", e);
        }
    }

    private static int dots(double millimetres) {
        return (int) (millimetres / 25.4 * DOTS_IN_INCH);
    }

    @Override
    public void close() throws IOException {
        rack.close();
        key.close();
    }
}
