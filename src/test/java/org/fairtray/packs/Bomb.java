package org.fairtray.packs;

import java.io.ByteArrayOutputStream;
import java.util.zip.Deflater;

/** A gigabyte of zeros in a megabyte. */
final class Bomb {
    private Bomb() {}

    static byte[] packed() {
        var deflater = new Deflater(9, true);
        var out = new ByteArrayOutputStream();
        var chunk = new byte[1 << 16];
        var zeros = new byte[1 << 20];
        for (int i = 0; i < 1024; i++) {
            deflater.setInput(zeros);
            while (!deflater.needsInput()) {
                out.write(chunk, 0, deflater.deflate(chunk));
            }
        }
        deflater.finish();
        while (!deflater.finished()) {
            out.write(chunk, 0, deflater.deflate(chunk));
        }
        deflater.end();
        return out.toByteArray();
    }
}
