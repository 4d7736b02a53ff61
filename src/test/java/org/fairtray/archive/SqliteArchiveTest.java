package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An archive in a file, whose name has what addresses of databases take for their own. */
class SqliteArchiveTest implements KeepingContract, FindingContract, SharingContract {
    @TempDir
    private Path folder;

    private Path file() {
        return folder.resolve("our network? 100% ü #1.db");
    }

    @Override
    public String address() {
        return file().toString();
    }

    @Override
    public String lock() {
        return "update shared_trial set title = title";
    }

    @Test
    void isOneFileWhenItIsClosed() throws IOException {
        try (var archive = open()) {
            archive.add(Deposits.numbered(1));
        }
        try (Stream<Path> files = Files.list(folder)) {
            assertEquals(List.of(file()), files.toList());
        }
    }

    @Test
    void whatWasWithdrawnIsNotInTheFileAnyMore() throws IOException {
        var secret = "this must not be read again";
        try (var archive = open()) {
            archive.addAll(IntStream.range(0, 20).mapToObj(Deposits::numbered), false, (t, k) -> {});
            archive.add(Deposits.with(
                    Deposits.titled("Trial", "cress", 50), secret, (secret + secret).getBytes(StandardCharsets.UTF_8)));
            assertTrue(bytes().contains(secret));
            archive.withdraw(Deposits.id(50), "a mistake");
            assertFalse(bytes().contains(secret));
        }
    }

    /** Of the file and the log beside it. */
    private String bytes() throws IOException {
        var all = new StringBuilder();
        try (Stream<Path> files = Files.list(folder)) {
            for (var each : files.toList()) {
                all.append(new String(Files.readAllBytes(each), StandardCharsets.ISO_8859_1));
            }
        }
        return all.toString();
    }

    @Test
    void aFileOfSomethingElseIsRefusedAndLeftAlone() throws IOException {
        Files.writeString(file(), "tray,day,germinated\n".repeat(100));
        assertEquals(
                address()
                        + ": found a file that isn't an archive; expected an archive of shared trials, or a name that no"
                        + " file has yet",
                ArchiveContract.refusal(this::open));
        assertEquals("tray,day,germinated\n".repeat(100), Files.readString(file()));
    }

    @Test
    void aDamagedFileIsToldOf() throws IOException {
        try (var archive = open()) {
            archive.addAll(IntStream.range(0, 500).mapToObj(Deposits::numbered), false, (t, k) -> {});
        }
        var bytes = Files.readAllBytes(file());
        Arrays.fill(bytes, 8192, bytes.length, (byte) 0x5a);
        Files.write(file(), bytes);
        assertEquals(
                address() + ": found a damaged archive; expected a whole one, from your copies",
                ArchiveContract.refusal(() -> {
                    try (var archive = open()) {
                        assertEquals(0, archive.find(Search.all()).count());
                    }
                }));
    }

    @Test
    void aFolderThatIsntThereIsToldOf() {
        var there = folder.resolve("none/archive.db").toString();
        assertEquals(
                there
                        + ": found that it can't be opened (no such folder, or no permission); expected a file in a folder,"
                        + " both of which you may write to",
                ArchiveContract.refusal(() -> Archive.open(there)));
        assertEquals(
                folder
                        + ": found that it can't be opened (no such folder, or no permission); expected a file in a folder,"
                        + " both of which you may write to",
                ArchiveContract.refusal(() -> Archive.open(folder.toString())));
    }

    @Test
    void anEmptyFileBecomesAnArchive() throws IOException {
        Files.createFile(file());
        try (var archive = open()) {
            archive.add(Deposits.numbered(1));
            assertEquals(1, archive.find(Search.all()).count());
            assertTrue(Files.exists(folder.resolve(file().getFileName() + "-wal")), "readers would wait for writers");
        }
    }
}
