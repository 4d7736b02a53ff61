package org.fairtray.bench.web;

import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.util.Map;

/** An address for a phone's camera, as a drawing or in letters. */
final class CameraCode {
    private static final int QUIET = 4;

    private final ByteMatrix squares;

    CameraCode(String address) {
        try {
            squares = Encoder.encode(address, ErrorCorrectionLevel.L, Map.of(EncodeHintType.CHARACTER_SET, "UTF-8"))
                    .getMatrix();
        } catch (WriterException e) {
            throw new IllegalArgumentException(address + ": expected an address that fits into a camera code", e);
        }
    }

    private boolean dark(int column, int row) {
        boolean inside = column >= 0 && row >= 0 && column < squares.getWidth() && row < squares.getHeight();
        return inside && squares.get(column, row) == 1;
    }

    String svg() {
        int side = squares.getWidth() + 2 * QUIET;
        var path = new StringBuilder();
        for (int row = 0; row < squares.getHeight(); row++) {
            for (int column = 0; column < squares.getWidth(); column++) {
                if (dark(column, row)) {
                    path.append("M%d %dh1v1h-1z".formatted(column + QUIET, row + QUIET));
                }
            }
        }
        return ("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" shape-rendering=\"crispEdges\">"
                        + "<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/><path d=\"%s\"/></svg>")
                .formatted(side, side, path);
    }

    /** In half blocks, light on dark as most terminals are: two rows of squares to a line. */
    String letters() {
        var text = new StringBuilder();
        for (int row = -QUIET / 2; row < squares.getHeight() + QUIET / 2; row += 2) {
            for (int column = -QUIET / 2; column < squares.getWidth() + QUIET / 2; column++) {
                boolean upper = !dark(column, row);
                boolean lower = !dark(column, row + 1);
                text.append(upper ? (lower ? '█' : '▀') : (lower ? '▄' : ' '));
            }
            text.append('\n');
        }
        return text.toString();
    }
}
