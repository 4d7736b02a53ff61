package org.fairtray.browser;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.Result;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.multi.qrcode.QRCodeMultiReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;

/** What a phone's camera reads off a screen or a sheet. */
final class CameraCodes {
    private static final int DOTS_IN_INCH = 200;

    private CameraCodes() {}

    /** On a picture as PNG. */
    static Set<String> onPicture(byte[] png) throws IOException {
        return on(ImageIO.read(new ByteArrayInputStream(png)));
    }

    /** On all pages of a PDF file. */
    static Set<String> onPaper(byte[] pdf) throws IOException {
        var found = new TreeSet<String>();
        try (var document = Loader.loadPDF(pdf)) {
            for (int page = 0; page < document.getNumberOfPages(); page++) {
                found.addAll(on(new PDFRenderer(document).renderImageWithDPI(page, DOTS_IN_INCH, ImageType.RGB)));
            }
        }
        return found;
    }

    private static Set<String> on(BufferedImage image) {
        int width = image.getWidth();
        var pixels = image.getRGB(0, 0, width, image.getHeight(), null, 0, width);
        var bitmap = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, image.getHeight(), pixels)));
        try {
            var seen = new QRCodeMultiReader().decodeMultiple(bitmap, Map.of(DecodeHintType.TRY_HARDER, true));
            return Stream.of(seen).map(Result::getText).collect(Collectors.toSet());
        } catch (NotFoundException e) {
            return Set.of();
        }
    }
}
