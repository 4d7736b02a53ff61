package org.fairtray.sheets.pdf;

import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.fairtray.sheets.paper.Box;

/** A QR code as dark rectangles. */
final class CameraSquares {
    private static final int QUIET = 4;
    /** More squares than this in a row are too fine for an office printer and a phone at labels' size. */
    private static final int FINEST = 61;

    private static final Map<EncodeHintType, Object> HINTS = Map.of(EncodeHintType.CHARACTER_SET, "UTF-8");

    private CameraSquares() {}

    /** The dark parts, with the quiet zone inside the box; none where the content is too long to be read off a label. */
    static List<Box> of(String content, Box box) {
        var matrix = matrix(content);
        if (matrix == null || matrix.getWidth() > FINEST) {
            return List.of();
        }
        var dark = new ArrayList<Box>();
        double unit = Math.min(box.width(), box.height()) / (matrix.getWidth() + 2 * QUIET);
        for (int row = 0; row < matrix.getHeight(); row++) {
            int from = 0;
            while (from < matrix.getWidth()) {
                int to = from;
                while (to < matrix.getWidth() && matrix.get(to, row) == 1) {
                    to++;
                }
                if (to > from) {
                    dark.add(new Box(
                            box.left() + (QUIET + from) * unit,
                            box.top() + (QUIET + row) * unit,
                            (to - from) * unit,
                            unit));
                }
                from = to + 1;
            }
        }
        return dark;
    }

    private static ByteMatrix matrix(String content) {
        try {
            return Encoder.encode(content, ErrorCorrectionLevel.M, HINTS).getMatrix();
        } catch (WriterException e) {
            return null;
        }
    }
}
