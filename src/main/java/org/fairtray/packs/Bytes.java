package org.fairtray.packs;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** The numbers in a zip archive: little-endian, without a sign. */
final class Bytes {
    private final ByteBuffer buffer;

    Bytes(byte[] bytes) {
        this.buffer = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    int size() {
        return buffer.capacity();
    }

    /** Whether so many bytes lie at a place. */
    boolean has(long at, long count) {
        return at >= 0 && count >= 0 && at + count <= size();
    }

    int two(long at) {
        return buffer.getShort((int) at) & 0xffff;
    }

    long four(long at) {
        return buffer.getInt((int) at) & 0xffffffffL;
    }

    /** Letters, one for each byte: a name that isn't plain ASCII is none of a pack's anyway. */
    String letters(long at, int count) {
        return new String(buffer.array(), (int) at, count, StandardCharsets.ISO_8859_1);
    }

    /** The last place at which this number stands, or -1. */
    int last(long number) {
        for (int at = size() - 4; at >= 0; at--) {
            if (four(at) == number) {
                return at;
            }
        }
        return -1;
    }
}
