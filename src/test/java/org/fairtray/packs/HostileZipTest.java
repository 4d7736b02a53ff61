package org.fairtray.packs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Arrays;
import java.util.function.Consumer;
import org.fairtray.files.ProblemsException;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Archives that are no pack, or are made to do harm: every one is refused, and what is said of it is told. */
class HostileZipTest {
    private static final String FILES = "; expected files of a trial, as pack writes them";
    private static final String ALONE = "; expected one zip archive and nothing else";
    private static final String PLAIN = "; expected the plain format: a pack is far smaller than zip64 is for";

    private static String refusal(byte[] zip) {
        return assertThrows(ProblemsException.class, () -> PackFile.read("p.zip", zip))
                .getMessage();
    }

    private static void refused(String expected, Consumer<Forge> lie) {
        var forge = Forge.ofSample();
        lie.accept(forge);
        assertEquals("p.zip: found " + expected, refusal(forge.zip()));
    }

    @Test
    void theForgeItselfMakesASoundPack() {
        assertEquals(
                PackFile.read("sample", Sample.pack()).id(),
                PackFile.read("forged", Forge.ofSample().zip()).id());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../plan.yaml",
                "photos/../../plan.jpg",
                "/etc/passwd",
                "photos\\\\1.jpg",
                "C:plan.yaml",
                "photos/..",
                "\\\\host\\plan.yaml"
            })
    void pathsThatLeadOut(String name) {
        refused("the path '" + name + "', which leads out of the pack" + FILES, f -> f.add(name, Sample.utf8("x")));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "readings.journal",
                "PLAN2.yaml",
                "photos/x.png",
                "photos/a/b.jpg",
                "sub/plan.yaml",
                "photos/.hidden.jpg",
                "__MACOSX/._plan.yaml",
                "plan.yaml ",
                "evil.exe",
                ""
            })
    void unknownFiles(String name) {
        refused("an unknown file, '" + name + "'" + FILES, f -> f.add(name, Sample.utf8("x")));
    }

    /** Names are shown without what would colour, clear or turn a terminal's line. */
    @Test
    void namesAreShownHarmless() {
        refused(
                "an unknown file, '\\u001b[2J\\u0007.yaml'" + FILES,
                f -> f.add("\u001b[2J\u0007.yaml", Sample.utf8("x")));
        refused("an unknown file, 'pl\u00e2n\\u0080\\n'" + FILES, f -> f.add("pl\u00e2n\u0080\n", Sample.utf8("x")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"inner.zip", "INNER.ZIP", "x.tar.gz", "photos/deep.7z"})
    void archivesInside(String name) {
        refused("an archive inside, '" + name + "'" + FILES, f -> f.add(name, Sample.pack()));
    }

    @Test
    void anArchiveUnderAnotherName() {
        refused("an archive inside, called 'photos/1.jpg'" + FILES, f -> f.add("photos/1.jpg", Sample.pack()));
    }

    @Test
    void theSameNameTwice() {
        refused("'plan.yaml' twice; expected each file once", f -> f.add("plan.yaml", Sample.utf8("x")));
    }

    @Test
    void namesThatAreOneWhereCaseDoesNotCount() {
        var forge = Forge.ofSample();
        forge.add("photos/a.jpg", Sample.utf8("x"));
        forge.add("photos/A.jpg", Sample.utf8("x"));
        assertEquals(
                "p.zip: found 'photos/A.jpg' beside 'photos/a.jpg'; expected each file once", refusal(forge.zip()));
    }

    @ParameterizedTest
    @CsvSource({
        "0120777", // a link
        "0040755", // a folder
        "0060644", // a disk
        "0020644", // a terminal
        "0010644", // a pipe
        "0140644" // a socket
    })
    void whatIsNoFileOnUnix(String mode) {
        refused(
                "'plan.yaml', which is a link, a folder or a device" + FILES,
                f -> f.entry("plan.yaml").attributes = Long.parseLong(mode, 8) << 16);
    }

    @ParameterizedTest
    @ValueSource(longs = {0x10, 0x08, 0x400})
    void whatIsNoFileOnWindows(long attributes) {
        refused("'plan.yaml', which is a link, a folder or a device" + FILES, f -> {
            f.entry("plan.yaml").attributes = attributes;
            f.entry("plan.yaml").madeBy = 20;
        });
    }

    @Test
    void aFolderOfPhotosAsOtherProgramsWriteItDoesNoHarm() {
        var forge = Forge.ofSample();
        forge.add("photos/", new byte[0]).attributes = 0040755L << 16 | 0x10;
        assertEquals(
                PackFile.read("sample", Sample.pack()).id(),
                PackFile.read("p", forge.zip()).id());
        forge.entry("photos/").attributes = 0120777L << 16;
        assertEquals("p.zip: found an unknown file, 'photos/'" + FILES, refusal(forge.zip()));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 1 << 6, 1 << 13})
    void encryptedEntries(int flag) {
        refused(
                "the encrypted entry 'plan.yaml'; expected entries that anyone can read",
                f -> f.entry("plan.yaml").flagged(flag));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 6, 9, 12, 14, 93, 95, 99})
    void otherMethods(int method) {
        refused(
                "'plan.yaml' packed by method " + method + "; expected method 0 (stored) or 8 (deflated)",
                f -> f.entry("plan.yaml").packedBy(method));
    }

    @Test
    void storedInAnotherNumberOfBytes() {
        refused(
                "'plan.yaml', stored in another number of bytes than it has; expected the same number",
                f -> f.entry("plan.yaml").sized(5));
    }

    @Test
    void bothTablesMustSayTheSame() {
        var lies = java.util.List.<Consumer<Forge.Entry>>of(
                e -> e.localName = "seal.json",
                e -> e.localMethod = 8,
                e -> e.localFlags = 1,
                e -> e.localCrc++,
                e -> e.localSize++,
                e -> e.localPackedSize--,
                e -> e.flags = 8,
                e -> e.localFlags = 8);
        for (var lie : lies) {
            refused(
                    "another 'plan.yaml' in the archive than in its table of contents; expected both the same",
                    f -> lie.accept(f.entry("plan.yaml")));
        }
    }

    @Test
    void sizesBehindAnEntryMustBeItsOwn() {
        var forge = Forge.ofSample();
        var plan = forge.entry("plan.yaml").flagged(8);
        plan.behind = Forge.descriptor(plan);
        PackFile.read("p", forge.zip());
        plan.behind[8]++;
        plan.at = null;
        assertEquals(
                "p.zip: found another 'plan.yaml' in the archive than in its table of contents; expected both the same",
                refusal(again(forge).zip()));
    }

    private static Forge again(Forge forge) {
        forge.entries.forEach(e -> e.at = null);
        return forge;
    }

    @Test
    void nothingLiesOutsideOfTheEntries() {
        var other = Forge.ofSample().zip();
        refused(
                "bytes before 'datapackage.json'; expected each entry right behind the one before",
                f -> f.atStart = other);
        refused(
                "bytes before 'plan.yaml'; expected each entry right behind the one before",
                f -> f.entry("plan.yaml").before = Sample.utf8("hidden"));
        refused("bytes between the entries and the table of contents" + ALONE, f -> f.beforeTable = other);
        refused("an archive whose table of contents isn't where its end says" + ALONE, f -> f.beforeEnd = new byte[7]);
        refused("a table of contents with more in it than its entries" + ALONE, f -> f.inTable = new byte[7]);
        refused(
                "a comment or other bytes behind the end of the archive" + ALONE,
                f -> f.atEnd = Sample.utf8("more bytes"));
        refused(
                "a comment or other bytes behind the end of the archive" + ALONE,
                f -> f.comment = Sample.utf8("a comment"));
        refused("a comment on 'plan.yaml'; expected no comments", f -> f.entry("plan.yaml").comment = new byte[3]);
    }

    /** One archive behind another: some programs show the first, some the last. */
    @Test
    void twoArchivesInOneFile() {
        var first = Forge.ofSample().zip();
        var second = Forge.of(PackFile.read("x", PackFile.bytes(Sample.ABOUT, Sample.planAlone()))
                        .files())
                .zip();
        var both = Arrays.copyOf(first, first.length + second.length);
        System.arraycopy(second, 0, both, first.length, second.length);
        assertEquals("p.zip: found an archive whose table of contents isn't where its end says" + ALONE, refusal(both));
    }

    @Test
    void entriesOverOneAnother() {
        refused(
                "an entry over another: 'plan.yaml'; expected each entry right behind the one before",
                f -> f.entry("plan.yaml").at = 0L);
    }

    @Test
    void bytesBehindTheEndOfADeflatedFile() {
        var files = PackFile.read("sample", Sample.pack()).files();
        var forge = new Forge();
        files.forEach(forge::deflate);
        PackFile.read("deflated", forge.zip());
        var plan = forge.entry("plan.yaml");
        plan.packed = Arrays.copyOf(plan.packed, plan.packed.length + 100);
        plan.packedSize += 100;
        plan.localPackedSize += 100;
        assertEquals(
                "p.zip: found bytes behind the end of 'plan.yaml'; expected the file and nothing else",
                refusal(again(forge).zip()));
    }

    @Test
    void largeFormatsAreRefused() {
        refused(
                "'plan.yaml' in the zip64 format" + PLAIN,
                f -> f.entry("plan.yaml").extra = Forge.extra(1, new byte[16]));
        refused(
                "'plan.yaml' in the zip64 format" + PLAIN,
                f -> f.entry("plan.yaml").localExtra = Forge.extra(1, new byte[16]));
        refused("an archive in the zip64 format" + PLAIN, f -> {
            f.beforeEnd = new byte[20];
            f.beforeEnd[0] = 'P';
            f.beforeEnd[1] = 'K';
            f.beforeEnd[2] = 6;
            f.beforeEnd[3] = 7;
        });
        refused("65535 entries; expected at most 64", f -> f.countOff = 0xffff - f.entries.size());
    }

    @Test
    void extraFields() {
        refused(
                "a second name of 'plan.yaml'; expected one name for each file",
                f -> f.entry("plan.yaml").extra = Forge.extra(0x7075, new byte[9]));
        refused(
                "an extra field of 'plan.yaml' that is cut short; expected whole ones or none",
                f -> f.entry("plan.yaml").extra = new byte[] {1, 2, 99, 0, 1});
        var forge = Forge.ofSample();
        forge.entry("plan.yaml").extra = Forge.extra(0x5455, new byte[5]);
        forge.entry("plan.yaml").localExtra = Forge.extra(0x5455, new byte[9]);
        PackFile.read("times, as most programs write them", forge.zip());
    }

    @Test
    void brokenTables() {
        refused("an archive whose table of contents isn't where its end says" + ALONE, f -> f.tableOff = -5);
        refused("a part of an archive that lies on several disks" + ALONE, f -> f.disk = 1);
        refused("a table of contents that is broken at entry 5" + ALONE, f -> f.countOff = 1);
        refused("a table of contents with more in it than its entries" + ALONE, f -> f.countOff = -1);
    }

    @Test
    void whatIsNoArchive() {
        assertEquals("p.zip: found a file that is no zip archive; expected a pack", refusal(new byte[0]));
        assertEquals(
                "p.zip: found a file that is no zip archive; expected a pack", refusal(Sample.utf8("trial: cress")));
        var half = Arrays.copyOf(Sample.pack(), 1000);
        assertEquals("p.zip: found an archive that is cut short; expected a pack", refusal(half));
        var nearly = Arrays.copyOf(Sample.pack(), Sample.pack().length - 3);
        assertEquals("p.zip: found an archive that is cut short" + ALONE, refusal(nearly));
    }

    @Test
    void everyProblemOfAnArchiveIsTold() {
        var forge = Forge.ofSample();
        forge.add("../a", new byte[0]);
        forge.add("evil.exe", new byte[0]);
        forge.entry("plan.yaml").packedBy(12);
        assertEquals(3, refusal(forge.zip()).lines().count());
    }

    @Test
    void aDamagedFile() {
        refused(
                "'plan.yaml', which is damaged; expected the bytes that were packed",
                f -> f.entry("plan.yaml").packed[3] ^= 1);
    }

    @Test
    void tooManyEntries() {
        refused("65 entries; expected at most 64", f -> {
            for (int i = f.entries.size(); i < 65; i++) {
                f.add("photos/" + i + ".jpg", new byte[0]);
            }
        });
    }

    @Test
    void tooLargeAFile() {
        assertEquals("p.zip: found 65 megabytes; expected at most 64", refusal(new byte[65 << 20]));
    }

    /** A gigabyte of nothing in a megabyte, and the same said to be five bytes. */
    @ParameterizedTest
    @ValueSource(longs = {1L << 30, 5})
    void aBombIsStoppedWhileItUnpacks(long said) {
        var bomb = Forge.ofSample();
        var report = bomb.deflate("report.html", new byte[0]);
        report.packed = Bomb.packed();
        report.packedSize = report.packed.length;
        report.localPackedSize = report.packed.length;
        report.sized(said);
        var zip = bomb.zip();
        assertTrue(zip.length < 2 << 20);
        long before = used();
        var told = Assertions.assertTimeout(Duration.ofSeconds(5), () -> refusal(zip));
        assertEquals("p.zip: found 'report.html' of more than 32 megabytes; expected at most so many", told);
        assertTrue(used() - before < 300L << 20, "memory");
    }

    private static long used() {
        var runtime = Runtime.getRuntime();
        return runtime.totalMemory() - runtime.freeMemory();
    }

    @Test
    void manySmallBombsAreStoppedTogether() {
        var bombs = Forge.ofSample();
        for (int i = 0; i < 40; i++) {
            bombs.deflate("photos/" + i + ".jpg", new byte[4 << 20]);
        }
        assertEquals(
                "p.zip: found files of more than 64 megabytes together; expected at most so many",
                refusal(bombs.zip()).lines().findFirst().orElseThrow());
    }
}
