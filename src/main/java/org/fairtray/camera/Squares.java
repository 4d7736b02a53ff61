package org.fairtray.camera;

import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.util.Map;
import java.util.Optional;

/** A QR code: as many rows as columns of squares, each dark or light. */
public final class Squares {
    /** Light squares that must lie around a code. */
    public static final int QUIET = 4;

    private final ByteMatrix matrix;

    private Squares(ByteMatrix matrix) {
        this.matrix = matrix;
    }

    /** For a screen, where nothing wears off; none where the content is too long for any code. */
    public static Optional<Squares> onScreen(String content) {
        return of(content, ErrorCorrectionLevel.L);
    }

    /** For paper that gets wet and scratched: with more squares, of which some may be lost. */
    public static Optional<Squares> onPaper(String content) {
        return of(content, ErrorCorrectionLevel.M);
    }

    private static Optional<Squares> of(String content, ErrorCorrectionLevel spare) {
        try {
            var code = Encoder.encode(content, spare, Map.of(EncodeHintType.CHARACTER_SET, "UTF-8"));
            return Optional.of(new Squares(code.getMatrix()));
        } catch (WriterException e) {
            return Optional.empty();
        }
    }

    /** How many squares a row has. */
    public int side() {
        return matrix.getWidth();
    }

    /** Whether a square is dark; those around the code are light. */
    public boolean dark(int column, int row) {
        boolean inside = column >= 0 && row >= 0 && column < side() && row < side();
        return inside && matrix.get(column, row) == 1;
    }
}
