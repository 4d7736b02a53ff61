package org.fairtray.packs;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TimeZone;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Sha256;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Packs written and read again. */
class PackFileTest {

    @Test
    void whatIsPackedComesBack() {
        var files = Sample.files();
        var about = new PackFile.About("9.9", Optional.of("north-1"), Optional.of("CC-BY-4.0"), List.of());
        var pack = PackFile.read("some.zip", PackFile.bytes(about, files));
        files.forEach((name, bytes) -> assertArrayEquals(bytes, pack.files().get(name), name));
        assertEquals(4, pack.files().size());
        assertEquals(pack.trial().trial().title(), pack.title());
        assertEquals("9.9", pack.version());
        assertEquals(Optional.of("north-1"), pack.farm());
        assertEquals(Optional.of("CC-BY-4.0"), pack.licence());
        assertEquals(Sha256.of(pack.files().get("datapackage.json")), pack.id());
        assertTrue(pack.trial().readings().size() > 10);
    }

    @Test
    void farmAndLicenceAreThereOnlyWhereGiven() {
        var pack = PackFile.read("some.zip", Sample.pack());
        assertEquals(Optional.empty(), pack.farm());
        assertEquals(Optional.empty(), pack.licence());
        assertTrue(new String(pack.files().get("datapackage.json"), java.nio.charset.StandardCharsets.UTF_8)
                .contains("\"left_out\": [\n      \"who counted\"\n    ]"));
    }

    @Test
    void aPlanAloneCanBePacked() {
        var pack = PackFile.read("plan.zip", PackFile.bytes(Sample.ABOUT, Sample.planAlone()));
        assertTrue(pack.trial().layout().isEmpty());
        assertEquals(2, pack.files().size());
    }

    @Test
    void anyOtherByteGivesAnotherId() {
        var files = Sample.files();
        var one = PackFile.read("one", PackFile.bytes(Sample.ABOUT, files)).id();
        files.put(
                "plan.yaml",
                Sample.utf8(new String(files.get("plan.yaml"), java.nio.charset.StandardCharsets.UTF_8) + "\n"));
        assertTrue(!one.equals(
                PackFile.read("two", PackFile.bytes(Sample.ABOUT, files)).id()));
    }

    /** Every zone of this Java: a zip holds local times, and some zones skip hours. */
    @Test
    void zoneAndLocaleLeaveNoTrace() {
        var usualZone = TimeZone.getDefault();
        var usualLocale = Locale.getDefault();
        var first = Sample.pack();
        try {
            for (var locale : List.of("ar-EG-u-nu-arab", "tr-TR", "th-TH-u-nu-thai")) {
                Locale.setDefault(Locale.forLanguageTag(locale));
                assertArrayEquals(first, Sample.pack(), locale);
            }
            var plan = PackFile.bytes(Sample.ABOUT, Sample.planAlone());
            for (var zone : ZoneId.getAvailableZoneIds()) {
                TimeZone.setDefault(TimeZone.getTimeZone(zone));
                assertArrayEquals(plan, PackFile.bytes(Sample.ABOUT, Sample.planAlone()), zone);
            }
        } finally {
            TimeZone.setDefault(usualZone);
            Locale.setDefault(usualLocale);
        }
    }

    /** Byte by byte what the format says: stored, in order, 1 January 1980, no extra fields. */
    @Test
    void entriesHaveNothingButNameAndBytes() {
        var zip = Sample.pack();
        var entries = ZipParts.of(zip, new org.fairtray.files.Problems("zip"));
        var names = new ArrayList<String>();
        var bytes = new Bytes(zip);
        for (var entry : entries) {
            names.add(entry.name());
            assertEquals(0, entry.method());
            assertEquals("", entry.extra());
            assertEquals(0, bytes.two(entry.at() + 28), "extra field");
            assertEquals(0, bytes.two(entry.at() + 10), "time");
            assertEquals(1 << 5 | 1, bytes.two(entry.at() + 12), "day");
        }
        assertEquals(List.of("datapackage.json", "layout.csv", "plan.yaml", "readings.csv"), names);
    }

    /** What other programs make of a pack: unpacked and packed again, deflated, with times, sizes behind the bytes. */
    @Test
    void packedAgainByOthersItIsTheSamePack() throws IOException {
        var before = PackFile.read("some.zip", Sample.pack());
        var again = new ByteArrayOutputStream();
        try (var in = new ZipInputStream(new ByteArrayInputStream(Sample.pack()));
                var out = new ZipOutputStream(again)) {
            for (var entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                out.putNextEntry(new ZipEntry(entry.getName()));
                in.transferTo(out);
            }
        }
        assertTrue(again.size() < Sample.pack().length / 2);
        assertEquals(
                before.id(), PackFile.read("again.zip", again.toByteArray()).id());
    }

    @Test
    void readsAFileAndSaysWhereThereIsNone(@TempDir Path home) throws IOException {
        var file = home.resolve("trial.zip");
        Files.write(file, Sample.pack());
        assertEquals(PackFile.read("x", Sample.pack()).id(), PackFile.read(file).id());
        var none = home.resolve("none.zip");
        assertEquals(
                none + ": found no such file; expected a pack, as pack writes one",
                assertThrows(ProblemsException.class, () -> PackFile.read(none)).getMessage());
        assertEquals(
                home + ": found a folder or device of this name; expected a pack, as pack writes one",
                assertThrows(ProblemsException.class, () -> PackFile.read(home)).getMessage());
    }

    @Test
    void whatCouldNotBeReadAgainIsNotWritten() {
        var files = Sample.files();
        files.put("readings.journal", Sample.utf8("{}"));
        assertEquals(
                "the pack: found an unknown file, 'readings.journal'; expected files of a trial, as pack writes them",
                assertThrows(ProblemsException.class, () -> PackFile.bytes(Sample.ABOUT, files))
                        .getMessage());
    }
}
