package org.fairtray.sheets.pdf;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.camera.Squares;
import org.fairtray.sheets.paper.Box;

/** A QR code as dark rectangles. */
final class CameraSquares {
    /** More squares than this in a row are too fine for an office printer and a phone at labels' size. */
    private static final int FINEST = 61;

    private CameraSquares() {}

    /** The dark parts, with the quiet zone inside the box; none where the content is too long to be read off a label. */
    static List<Box> of(String content, Box box) {
        return Squares.onPaper(content)
                .filter(s -> s.side() <= FINEST)
                .map(s -> dark(s, box))
                .orElse(List.of());
    }

    private static List<Box> dark(Squares squares, Box box) {
        var dark = new ArrayList<Box>();
        double unit = Math.min(box.width(), box.height()) / (squares.side() + 2 * Squares.QUIET);
        for (int row = 0; row < squares.side(); row++) {
            int from = 0;
            while (from < squares.side()) {
                int to = from;
                while (squares.dark(to, row)) {
                    to++;
                }
                if (to > from) {
                    dark.add(new Box(
                            box.left() + (Squares.QUIET + from) * unit,
                            box.top() + (Squares.QUIET + row) * unit,
                            (to - from) * unit,
                            unit));
                }
                from = to + 1;
            }
        }
        return dark;
    }
}
