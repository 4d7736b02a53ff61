package org.fairtray.bench.web;

import org.fairtray.camera.Squares;

/** An address for a phone's camera, as a drawing or in letters. */
final class CameraCode {
    private final Squares squares;

    CameraCode(String address) {
        squares = Squares.onScreen(address)
                .orElseThrow(() ->
                        new IllegalArgumentException(address + ": expected an address that fits into a camera code"));
    }

    String svg() {
        int side = squares.side() + 2 * Squares.QUIET;
        var path = new StringBuilder();
        for (int row = 0; row < squares.side(); row++) {
            for (int column = 0; column < squares.side(); column++) {
                if (squares.dark(column, row)) {
                    path.append("M%d %dh1v1h-1z".formatted(column + Squares.QUIET, row + Squares.QUIET));
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
        for (int row = -Squares.QUIET; row < squares.side() + Squares.QUIET; row += 2) {
            for (int column = -Squares.QUIET; column < squares.side() + Squares.QUIET; column++) {
                boolean upper = !squares.dark(column, row);
                boolean lower = !squares.dark(column, row + 1);
                text.append(upper ? (lower ? '█' : '▀') : (lower ? '▄' : ' '));
            }
            text.append('\n');
        }
        return text.toString();
    }
}
