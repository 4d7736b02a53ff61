package org.fairtray.packs;

/**
 * One entry of a zip archive, as its table of contents has it.
 *
 * @param name letter by byte
 * @param flags what the archive says of how it is written
 * @param method 0 stored, 8 deflated
 * @param crc CRC-32 of the file
 * @param packed its bytes in the archive
 * @param size its bytes
 * @param mode what Unix says of it: a file, a folder, a link; 0 where nothing
 * @param attributes what Windows says of it
 * @param extra extra fields, as letters
 * @param comment bytes of a comment
 * @param at where its part of the archive begins
 */
record ZipEntryPart(
        String name,
        int flags,
        int method,
        long crc,
        long packed,
        long size,
        int mode,
        int attributes,
        String extra,
        int comment,
        long at) {
    private static final int STORED = 0;
    private static final int DEFLATED = 8;
    private static final int ENCRYPTED = 1 | 1 << 6 | 1 << 13;
    private static final int SIZES_FOLLOW = 1 << 3;

    private static final int KIND = 0170000;
    private static final int REGULAR = 0100000;
    private static final int FOLDER = 0040000;
    /** A folder, a label of a disk, a link. */
    private static final int NOT_A_FILE = 0x10 | 0x08 | 0x400;

    private static final int WINDOWS_FOLDER = 0x10;

    boolean encrypted() {
        return (flags & ENCRYPTED) != 0;
    }

    /** Whether sizes stand behind the file's bytes, and not before them. */
    boolean sizesFollow() {
        return (flags & SIZES_FOLLOW) != 0;
    }

    /** The flags that change how the bytes are to be read. */
    int tellingFlags() {
        return flags & (ENCRYPTED | SIZES_FOLLOW);
    }

    boolean stored() {
        return method == STORED;
    }

    boolean methodKnown() {
        return method == STORED || method == DEFLATED;
    }

    /** Whether it is a file, as far as the archive says what it is. */
    boolean regular() {
        int kind = mode & KIND;
        return (kind == 0 || kind == REGULAR) && (attributes & NOT_A_FILE) == 0;
    }

    /** Whether it is a folder and nothing else. */
    boolean folder() {
        int kind = mode & KIND;
        return name.endsWith("/")
                && (kind == 0 || kind == FOLDER)
                && (attributes & NOT_A_FILE & ~WINDOWS_FOLDER) == 0
                && size == 0;
    }
}
