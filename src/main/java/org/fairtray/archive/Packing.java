package org.fairtray.archive;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.zip.Deflater;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/** How a pack's bytes lie in the database: made smaller where that is worth it. */
enum Packing {
    GZIP {
        @Override
        byte[] packed(byte[] bytes) {
            var packed = new ByteArrayOutputStream(bytes.length / 2 + 64);
            try (var gzip = new Quick(packed)) {
                gzip.write(bytes);
            } catch (IOException e) {
                throw new UncheckedIOException("writing to memory failed", e);
            }
            return packed.toByteArray();
        }

        @Override
        byte[] unpacked(byte[] bytes) throws IOException {
            try (var gzip = new GZIPInputStream(new ByteArrayInputStream(bytes))) {
                return gzip.readAllBytes();
            }
        }
    },
    PLAIN {
        @Override
        byte[] packed(byte[] bytes) {
            return bytes;
        }

        @Override
        byte[] unpacked(byte[] bytes) {
            return bytes;
        }
    };

    /** So much of a pack, here and there in it, tells whether the rest gets smaller too. */
    private static final int SAMPLES = 4;

    private static final int SAMPLE = 8 << 10;

    /** Tables and text get far smaller; photos don't, and trying all of them takes longer than writing them. */
    static Packing worthFor(byte[] bytes) {
        var sample = new ByteArrayOutputStream(SAMPLES * SAMPLE);
        for (int i = 0; i < SAMPLES; i++) {
            int from = (int) ((long) bytes.length * i / SAMPLES);
            sample.write(bytes, from, Math.min(SAMPLE, bytes.length - from));
        }
        return GZIP.packed(sample.toByteArray()).length < sample.size() * 0.9 ? GZIP : PLAIN;
    }

    /** The word for it in the database. */
    static String word(Packing packing) {
        return packing.name().toLowerCase(Locale.ROOT);
    }

    static Packing of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
    }

    abstract byte[] packed(byte[] bytes);

    abstract byte[] unpacked(byte[] bytes) throws IOException;

    /** Half as good a packer that takes a tenth of the time. */
    private static final class Quick extends GZIPOutputStream {
        Quick(OutputStream to) throws IOException {
            super(to);
            def.setLevel(Deflater.BEST_SPEED);
        }
    }
}
