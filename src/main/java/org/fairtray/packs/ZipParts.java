package org.fairtray.packs;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.fairtray.files.Problems;
import org.fairtray.files.Wording;

/**
 * The parts of a zip archive, one right behind the other: entries, table of contents, end. Programs differ in which of an
 * archive's two tables they believe and where they look for its end, so that one file can show two of them different
 * things. Here both tables have to agree, and no byte lies outside of an entry, before, between or behind them.
 */
final class ZipParts {
    private static final long LOCAL = 0x04034b50L;
    private static final long CENTRAL = 0x02014b50L;
    private static final long END = 0x06054b50L;
    private static final long LARGE_LOCATOR = 0x07064b50L;
    private static final long DESCRIPTOR = 0x08074b50L;

    private static final int LOCAL_SIZE = 30;
    private static final int CENTRAL_SIZE = 46;
    private static final int END_SIZE = 22;
    private static final int LARGE_LOCATOR_SIZE = 20;
    private static final long ALL_ONES = 0xffffffffL;

    private static final int LARGE_EXTRA = 0x0001;
    private static final int OTHER_NAME_EXTRA = 0x7075;

    private static final String ONE_ARCHIVE = "one zip archive and nothing else";

    private final Bytes bytes;
    private final Problems problems;

    private ZipParts(Bytes bytes, Problems problems) {
        this.bytes = bytes;
        this.problems = problems;
    }

    /** The entries, in the order of the table of contents; what is wrong is noted, and they can't be relied on then. */
    static List<ZipEntryPart> of(byte[] zip, Problems problems) {
        return new ZipParts(new Bytes(zip), problems).read();
    }

    private List<ZipEntryPart> read() {
        int end = bytes.size() - END_SIZE;
        if (!bytes.has(end, END_SIZE) || bytes.four(end) != END) {
            noEnd();
            return List.of();
        }
        if (end >= LARGE_LOCATOR_SIZE && bytes.four(end - LARGE_LOCATOR_SIZE) == LARGE_LOCATOR) {
            problems.add(
                    0, "an archive in the zip64 format", "the plain format: a pack is far smaller than zip64 is for");
            return List.of();
        }
        int count = bytes.two(end + 10);
        long tableSize = bytes.four(end + 12);
        long table = bytes.four(end + 16);
        if (bytes.four(end + 4) != 0 || bytes.two(end + 8) != count) {
            problems.add(0, "a part of an archive that lies on several disks", ONE_ARCHIVE);
        } else if (table + tableSize != end) {
            problems.add(0, "an archive whose table of contents isn't where its end says", ONE_ARCHIVE);
        } else if (bytes.two(end + 20) != 0) {
            problems.add(0, "an archive that is cut short", ONE_ARCHIVE);
        } else if (count > PackLimits.ENTRIES) {
            problems.add(0, count + " entries", "at most " + PackLimits.ENTRIES);
        } else {
            return entries(count, table, end);
        }
        return List.of();
    }

    private void noEnd() {
        int end = bytes.last(END);
        if (end < 0) {
            boolean begun = bytes.has(0, 4) && bytes.four(0) == LOCAL;
            problems.add(0, begun ? "an archive that is cut short" : "a file that is no zip archive", "a pack");
        } else {
            problems.add(
                    0,
                    bytes.size() - end < END_SIZE
                            ? "an archive that is cut short"
                            : "a comment or other bytes behind the end of the archive",
                    ONE_ARCHIVE);
        }
    }

    private List<ZipEntryPart> entries(int count, long table, long end) {
        var entries = new ArrayList<ZipEntryPart>();
        long at = table;
        for (int i = 0; i < count; i++) {
            if (!bytes.has(at, CENTRAL_SIZE) || bytes.four(at) != CENTRAL || at + length(at) > end) {
                problems.add(0, "a table of contents that is broken at entry " + (i + 1), ONE_ARCHIVE);
                return entries;
            }
            entries.add(entry(at));
            at += length(at);
        }
        if (at != end) {
            problems.add(0, "a table of contents with more in it than its entries", ONE_ARCHIVE);
        }
        entries.forEach(this::look);
        if (problems.none()) {
            walk(entries, table);
        }
        return entries;
    }

    private long length(long at) {
        return (long) CENTRAL_SIZE + bytes.two(at + 28) + bytes.two(at + 30) + bytes.two(at + 32);
    }

    private ZipEntryPart entry(long at) {
        int name = bytes.two(at + 28);
        int extra = bytes.two(at + 30);
        long attributes = bytes.four(at + 38);
        return new ZipEntryPart(
                bytes.letters(at + CENTRAL_SIZE, name),
                bytes.two(at + 8),
                bytes.two(at + 10),
                bytes.four(at + 16),
                bytes.four(at + 20),
                bytes.four(at + 24),
                (int) (attributes >> 16),
                (int) (attributes & 0xffff),
                bytes.letters(at + CENTRAL_SIZE + name, extra),
                bytes.two(at + 32),
                bytes.four(at + 42));
    }

    private void look(ZipEntryPart entry) {
        var name = Wording.quote(entry.name());
        if (entry.encrypted()) {
            problems.add(0, "the encrypted entry " + name, "entries that anyone can read");
        } else if (!entry.methodKnown()) {
            problems.add(0, name + " packed by method " + entry.method(), "method 0 (stored) or 8 (deflated)");
        } else if (entry.stored() && entry.packed() != entry.size()) {
            problems.add(0, name + ", stored in another number of bytes than it has", "the same number");
        }
        if (entry.packed() == ALL_ONES || entry.size() == ALL_ONES || entry.at() == ALL_ONES) {
            problems.add(0, name + " in the zip64 format", "the plain format: a pack is far smaller than zip64 is for");
        }
        if (entry.comment() > 0) {
            problems.add(0, "a comment on " + name, "no comments");
        }
        lookAtExtra(entry.name(), entry.extra());
    }

    private void lookAtExtra(String name, String extra) {
        int at = 0;
        while (at < extra.length()) {
            boolean whole = at + 4 <= extra.length();
            int size = whole ? extra.charAt(at + 2) | extra.charAt(at + 3) << 8 : 0;
            if (!whole || at + 4 + size > extra.length()) {
                problems.add(
                        0, "an extra field of " + Wording.quote(name) + " that is cut short", "whole ones or none");
                return;
            }
            int id = extra.charAt(at) | extra.charAt(at + 1) << 8;
            if (id == LARGE_EXTRA) {
                problems.add(
                        0,
                        Wording.quote(name) + " in the zip64 format",
                        "the plain format: a pack is far smaller than zip64 is for");
            } else if (id == OTHER_NAME_EXTRA) {
                problems.add(0, "a second name of " + Wording.quote(name), "one name for each file");
            }
            at += 4 + size;
        }
    }

    /** From the first byte to the table of contents: each entry begins where the one before ends. */
    private void walk(List<ZipEntryPart> entries, long table) {
        long at = 0;
        var inOrder = entries.stream()
                .sorted(Comparator.comparingLong(ZipEntryPart::at))
                .toList();
        for (var entry : inOrder) {
            if (entry.at() != at) {
                problems.add(
                        0,
                        (entry.at() < at ? "an entry over another: " : "bytes before ") + Wording.quote(entry.name()),
                        "each entry right behind the one before");
                return;
            }
            at = endOf(entry, table);
            if (at < 0) {
                return;
            }
        }
        if (at != table) {
            problems.add(0, "bytes between the entries and the table of contents", ONE_ARCHIVE);
        }
    }

    /** Where an entry ends, or -1 with a problem if its own head says something else than the table of contents. */
    private long endOf(ZipEntryPart entry, long table) {
        long at = entry.at();
        if (!bytes.has(at, LOCAL_SIZE) || bytes.four(at) != LOCAL) {
            return disagrees(entry);
        }
        int name = bytes.two(at + 26);
        int extra = bytes.two(at + 28);
        long data = at + LOCAL_SIZE + name + extra;
        long end = data + entry.packed();
        if (end > table || !sameHead(entry, at, name)) {
            return disagrees(entry);
        }
        lookAtExtra(entry.name(), bytes.letters(at + LOCAL_SIZE + name, extra));
        return entry.sizesFollow() ? endOfSizes(entry, end) : end;
    }

    private boolean sameHead(ZipEntryPart entry, long at, int name) {
        boolean later = entry.sizesFollow();
        return bytes.letters(at + LOCAL_SIZE, name).equals(entry.name())
                && tellingFlags(at) == entry.tellingFlags()
                && bytes.two(at + 8) == entry.method()
                && same(bytes.four(at + 14), entry.crc(), later)
                && same(bytes.four(at + 18), entry.packed(), later)
                && same(bytes.four(at + 22), entry.size(), later);
    }

    private int tellingFlags(long at) {
        return new ZipEntryPart("", bytes.two(at + 6), 0, 0, 0, 0, 0, 0, "", 0, 0).tellingFlags();
    }

    private static boolean same(long here, long there, boolean later) {
        return here == there || (later && here == 0);
    }

    /** Behind the bytes of an entry: CRC and sizes again, with or without a mark before them. */
    private long endOfSizes(ZipEntryPart entry, long at) {
        for (int mark : new int[] {4, 0}) {
            boolean there = bytes.has(at, mark + 12L)
                    && (mark == 0 || bytes.four(at) == DESCRIPTOR)
                    && bytes.four(at + mark) == entry.crc()
                    && bytes.four(at + mark + 4) == entry.packed()
                    && bytes.four(at + mark + 8) == entry.size();
            if (there) {
                return at + mark + 12;
            }
        }
        return disagrees(entry);
    }

    private long disagrees(ZipEntryPart entry) {
        problems.add(
                0,
                "another " + Wording.quote(entry.name()) + " in the archive than in its table of contents",
                "both the same");
        return -1;
    }
}
