package org.fairtray.files;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** One file of the folder as it lies on disk, and its text. */
final class StoredFile {
    private static final long LARGEST = 64L << 20;

    private final String name;
    private final byte[] bytes;

    StoredFile(String name, byte[] bytes) {
        this.name = name;
        this.bytes = bytes.clone();
    }

    /**
     * A file of the folder, or empty where there is none.
     *
     * @throws ProblemsException if something else than a readable file stands there
     */
    static Optional<StoredFile> find(Path folder, String name) {
        var path = folder.resolve(name);
        if (!Files.exists(path)) {
            return Optional.empty();
        }
        if (!Files.isRegularFile(path)) {
            throw new ProblemsException(problem(name, 0, "a folder or device of this name", "a file"));
        }
        try {
            if (Files.size(path) > LARGEST) {
                throw new ProblemsException(
                        problem(name, 0, (Files.size(path) >> 20) + " megabytes", "at most " + (LARGEST >> 20)));
            }
            return Optional.of(new StoredFile(name, Files.readAllBytes(path)));
        } catch (IOException e) {
            throw new ProblemsException(
                    problem(name, 0, "a file that can't be read (" + Obstacle.of(e) + ")", "a file you may read"));
        }
    }

    String name() {
        return name;
    }

    int size() {
        return bytes.length;
    }

    byte[] bytes() {
        return bytes.clone();
    }

    /** SHA-256 of the bytes, hexadecimal. */
    String sha256() {
        return Sha256.of(bytes);
    }

    /**
     * The text, without a byte-order mark.
     *
     * @throws ProblemsException if this isn't text in UTF-8
     */
    String text() {
        refuseOtherFormats();
        var in = ByteBuffer.wrap(bytes);
        var out = CharBuffer.allocate(bytes.length);
        CoderResult result = StandardCharsets.UTF_8.newDecoder().decode(in, out, true);
        if (result.isError()) {
            throw new ProblemsException(problem(
                    name,
                    line(in.position()),
                    "bytes that aren't UTF-8",
                    "text in UTF-8; save the file as 'CSV UTF-8' or plain text in UTF-8"));
        }
        var text = out.flip().toString();
        return text.startsWith("\ufeff") ? text.substring(1) : text;
    }

    private void refuseOtherFormats() {
        if (starts(0xff, 0xfe) || starts(0xfe, 0xff) || alternatesWithNul()) {
            throw new ProblemsException(
                    problem(name, 0, "text in UTF-16", "text in UTF-8; save the file as 'CSV UTF-8' or in UTF-8"));
        }
        if (starts('P', 'K', 3, 4) || starts(0xd0, 0xcf, 0x11, 0xe0)) {
            throw new ProblemsException(problem(
                    name, 0, "a spreadsheet's own file", "plain text; save it as 'CSV UTF-8' from the spreadsheet"));
        }
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] == 0) {
                throw new ProblemsException(
                        problem(name, line(i), "a NUL byte", "text only; the file is damaged or of another kind"));
            }
        }
    }

    private boolean starts(int... first) {
        for (int i = 0; i < first.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xff) != first[i]) {
                return false;
            }
        }
        return true;
    }

    /** UTF-16 without its mark shows as every other byte NUL. */
    private boolean alternatesWithNul() {
        return bytes.length >= 4
                && (bytes[0] == 0) != (bytes[1] == 0)
                && (bytes[0] == 0) == (bytes[2] == 0)
                && (bytes[1] == 0) == (bytes[3] == 0);
    }

    private int line(int position) {
        int line = 1;
        for (int i = 0; i < position; i++) {
            boolean end = bytes[i] == '\n' || (bytes[i] == '\r' && (i + 1 >= bytes.length || bytes[i + 1] != '\n'));
            line += end ? 1 : 0;
        }
        return line;
    }

    private static Problem problem(String file, int line, String found, String expected) {
        return new Problem(file, line, found, expected, Optional.empty());
    }
}
