package org.fairtray.packs;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/** A zip archive written byte by byte, with every lie that a library would refuse to write. */
final class Forge {
    /** One entry; what is public can be changed before {@link #zip}. */
    static final class Entry {
        String name;
        String localName;
        int flags;
        int localFlags;
        int method;
        int localMethod;
        long crc;
        long localCrc;
        long packedSize;
        long localPackedSize;
        long size;
        long localSize;
        int madeBy = 3 << 8 | 20;
        long attributes = 0100644L << 16;
        byte[] extra = {};
        byte[] localExtra = {};
        byte[] comment = {};
        byte[] packed;
        byte[] behind = {};
        byte[] before = {};
        Long at;

        Entry(String name, byte[] bytes, boolean deflated) {
            this.name = name;
            this.localName = name;
            this.packed = deflated ? deflated(bytes) : bytes;
            this.method = deflated ? 8 : 0;
            this.localMethod = method;
            var sum = new CRC32();
            sum.update(bytes);
            this.crc = sum.getValue();
            this.localCrc = crc;
            this.packedSize = packed.length;
            this.localPackedSize = packedSize;
            this.size = bytes.length;
            this.localSize = size;
        }

        /** Says the same lie in both tables. */
        Entry named(String both) {
            name = both;
            localName = both;
            return this;
        }

        Entry flagged(int both) {
            flags = both;
            localFlags = both;
            return this;
        }

        Entry packedBy(int both) {
            method = both;
            localMethod = both;
            return this;
        }

        Entry sized(long both) {
            size = both;
            localSize = both;
            return this;
        }
    }

    final List<Entry> entries = new ArrayList<>();
    byte[] atStart = {};
    byte[] beforeTable = {};
    byte[] inTable = {};
    byte[] beforeEnd = {};
    byte[] atEnd = {};
    byte[] comment = {};
    int tableOff;
    int countOff;
    int disk;

    /** A whole pack, entry by entry. */
    static Forge ofSample() {
        return of(PackFile.read("sample", Sample.pack()).files());
    }

    static Forge of(Map<String, byte[]> files) {
        var forge = new Forge();
        files.forEach((name, bytes) -> forge.add(name, bytes));
        return forge;
    }

    Entry add(String name, byte[] bytes) {
        var entry = new Entry(name, bytes, false);
        entries.add(entry);
        return entry;
    }

    Entry deflate(String name, byte[] bytes) {
        var entry = new Entry(name, bytes, true);
        entries.add(entry);
        return entry;
    }

    Entry entry(String name) {
        return entries.stream().filter(e -> e.name.equals(name)).findFirst().orElseThrow();
    }

    static byte[] deflated(byte[] bytes) {
        var deflater = new Deflater(9, true);
        deflater.setInput(bytes);
        deflater.finish();
        var out = new ByteArrayOutputStream();
        var chunk = new byte[1 << 16];
        while (!deflater.finished()) {
            out.write(chunk, 0, deflater.deflate(chunk));
        }
        deflater.end();
        return out.toByteArray();
    }

    byte[] zip() {
        var out = new ByteArrayOutputStream();
        out.writeBytes(atStart);
        for (var e : entries) {
            out.writeBytes(e.before);
            long here = out.size();
            e.at = e.at == null ? here : e.at;
            out.writeBytes(local(e));
            out.writeBytes(e.packed);
            out.writeBytes(e.behind);
        }
        out.writeBytes(beforeTable);
        int table = out.size();
        entries.forEach(e -> out.writeBytes(central(e)));
        out.writeBytes(inTable);
        int size = out.size() - table;
        out.writeBytes(beforeEnd);
        out.writeBytes(end(table, size));
        out.writeBytes(atEnd);
        return out.toByteArray();
    }

    private static ByteBuffer little(int size) {
        return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static byte[] local(Entry e) {
        var name = e.localName.getBytes(StandardCharsets.ISO_8859_1);
        return little(30 + name.length + e.localExtra.length)
                .putInt(0x04034b50)
                .putShort((short) 20)
                .putShort((short) e.localFlags)
                .putShort((short) e.localMethod)
                .putInt(0x00210000)
                .putInt((int) e.localCrc)
                .putInt((int) e.localPackedSize)
                .putInt((int) e.localSize)
                .putShort((short) name.length)
                .putShort((short) e.localExtra.length)
                .put(name)
                .put(e.localExtra)
                .array();
    }

    private static byte[] central(Entry e) {
        var name = e.name.getBytes(StandardCharsets.ISO_8859_1);
        return little(46 + name.length + e.extra.length + e.comment.length)
                .putInt(0x02014b50)
                .putShort((short) e.madeBy)
                .putShort((short) 20)
                .putShort((short) e.flags)
                .putShort((short) e.method)
                .putInt(0x00210000)
                .putInt((int) e.crc)
                .putInt((int) e.packedSize)
                .putInt((int) e.size)
                .putShort((short) name.length)
                .putShort((short) e.extra.length)
                .putShort((short) e.comment.length)
                .putShort((short) 0)
                .putShort((short) 0)
                .putInt((int) e.attributes)
                .putInt(e.at.intValue())
                .put(name)
                .put(e.extra)
                .put(e.comment)
                .array();
    }

    private byte[] end(int table, int size) {
        return little(22 + comment.length)
                .putInt(0x06054b50)
                .putShort((short) disk)
                .putShort((short) disk)
                .putShort((short) (entries.size() + countOff))
                .putShort((short) (entries.size() + countOff))
                .putInt(size)
                .putInt(table + tableOff)
                .putShort((short) comment.length)
                .put(comment)
                .array();
    }

    /** CRC and sizes behind an entry, with their mark. */
    static byte[] descriptor(Entry e) {
        return little(16)
                .putInt(0x08074b50)
                .putInt((int) e.crc)
                .putInt((int) e.packedSize)
                .putInt((int) e.size)
                .array();
    }

    /** An extra field. */
    static byte[] extra(int id, byte[] data) {
        return little(4 + data.length)
                .putShort((short) id)
                .putShort((short) data.length)
                .put(data)
                .array();
    }
}
