package org.fairtray.sharing;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TimeZone;
import javax.imageio.ImageIO;
import org.fairtray.command.Run;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.TrialFolder;
import org.fairtray.packs.Pack;
import org.fairtray.packs.PackFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What goes into a pack, and that nothing else does. */
class PackingTest {
    private static final String MARK = "zqxMARKqxz";
    private static final String PLAN = """
            # Read by everyone on the farm.
            format: 1
            trial: "Cress, #1"  # the first
            question: Do soaked seeds root sooner?
            crop: {name: cress}
            factors: [{name: soak, unit: h, levels: [0, 8]}]
            place: [{name: shelf, count: 2}, {name: spot, count: 6}]
            counting: {days: [5], seeds_per_frame: 50}
            outcomes: [{name: through, kind: count, of: sown, day: 5}]
            expect: {worthwhile: 0.2}
            """;

    @TempDir
    private Path home;

    /** A trial with something of a person wherever there is room for it. */
    private Path personal(String name) throws IOException {
        var folder = home.resolve(name);
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("plan.yaml"), PLAN);
        assertEquals(0, Run.of("lay", folder, "--seed", 7).status());
        var seal = folder.resolve("seal.json");
        Files.writeString(
                seal,
                Files.readString(seal).replaceFirst("\"time\": \"[^\"]*\"", "\"time\": \"2026-03-04T08:15:30.120Z\""));
        var rows = new ArrayList<String>();
        var layout = Files.readAllLines(folder.resolve("layout.csv"));
        rows.add("tray,day,sown,through,by," + MARK + "5,note,time");
        int soaked = layout.get(0).split(",").length - 1;
        for (var line : layout.subList(1, layout.size())) {
            var cells = line.split(",");
            rows.add(cells[0] + ",5,50," + (cells[soaked].equals("8") ? 30 : 20) + "," + MARK + "1 Anna," + MARK
                    + "2 dry," + MARK + "3 mould," + MARK + "4 08:15");
        }
        Files.write(folder.resolve("readings.csv"), rows);
        Files.createDirectories(folder.resolve("photos"));
        Files.write(folder.resolve("photos/" + MARK + "6.jpg"), photo());
        Files.writeString(
                folder.resolve("photos.csv"),
                "photo,tray,day,words\n" + MARK + "6.jpg," + layout.get(1).split(",")[0] + ",5," + MARK
                        + "7 in words\n");
        Files.writeString(folder.resolve("readings.journal"), MARK + "8\n");
        return folder;
    }

    /** A JPEG file with words in it that a camera might write. */
    private static byte[] photo() throws IOException {
        var jpeg = new ByteArrayOutputStream();
        var image = new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB);
        image.setRGB(3, 3, 0x00ff00);
        ImageIO.write(image, "jpg", jpeg);
        var words = (MARK + "9 52.1 N 5.6 E").getBytes(StandardCharsets.UTF_8);
        var bytes = jpeg.toByteArray();
        var all = new ByteArrayOutputStream();
        all.write(bytes, 0, 2);
        all.writeBytes(new byte[] {(byte) 0xff, (byte) 0xfe, 0, (byte) (words.length + 2)});
        all.writeBytes(words);
        all.write(bytes, 2, bytes.length - 2);
        return all.toByteArray();
    }

    private static Packing packing(Path folder, PackOptions options) {
        return Packing.of(new TrialFolder(folder), new PhotoFolder(folder), options);
    }

    private static PackOptions with(Keep... what) {
        return new PackOptions(Set.of(what), Optional.empty(), Optional.empty());
    }

    private static Pack pack(Path folder, PackOptions options) {
        return PackFile.read("pack", packing(folder, options).pack());
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    private static List<String> filesWith(Pack pack, String words) {
        return pack.files().entrySet().stream()
                .filter(e -> text(e.getValue()).contains(words))
                .map(java.util.Map.Entry::getKey)
                .toList();
    }

    @Test
    void nothingPersonalIsInAnyFileOfThePack() throws IOException {
        var folder = personal(MARK + "0");
        assertTrue(text(photo()).contains(MARK), "the photo has its words");
        var zip = packing(folder, PackOptions.USUAL).pack();
        assertFalse(text(zip).contains(MARK));
        assertFalse(text(zip).contains("08:15"), "the time of day");
        assertTrue(text(zip).contains("2026-03-04"), "the date");
        assertFalse(text(zip).contains(home.toString()), "where the trial lies");
        var pack = PackFile.read("pack", zip);
        assertEquals(
                Set.of(
                        "datapackage.json",
                        "layout.csv",
                        "plan.yaml",
                        "readings.csv",
                        "report.html",
                        "results.json",
                        "seal.json"),
                pack.files().keySet());
        assertTrue(text(pack.files().get("readings.csv")).startsWith("tray,day,sown,through\n"));
    }

    @Test
    void everyThingLeftOutIsNamedBefore() throws IOException {
        var folder = personal("mine");
        assertEquals(
                List.of(
                        "readings.csv, column 'by': who counted (--with by)",
                        "readings.csv, column '" + MARK + "5': what was noted beside the counts (--with notes)",
                        "readings.csv, column 'note': what was noted beside the counts (--with notes)",
                        "readings.csv, column 'time': when it was counted (--with times)",
                        "seal.json, the time of day of the draw; its date stays (--with times)",
                        "photos, 1 of them, with the places and times in them, and photos.csv (--with photos)"),
                packing(folder, PackOptions.USUAL).leftOut().stream()
                        .map(LeftOut::sentence)
                        .toList());
        assertEquals(List.of(), packing(folder, with(Keep.values())).leftOut());
        assertTrue(text(pack(folder, PackOptions.USUAL).files().get("datapackage.json"))
                .contains("""
                        "left_out": [
                              "by",
                              "notes",
                              "times",
                              "photos"
                            ]"""));
    }

    @Test
    void eachCanGoAlongByItself() throws IOException {
        var folder = personal("mine");
        assertEquals(List.of("readings.csv"), filesWith(pack(folder, with(Keep.BY)), MARK + "1"));
        assertEquals(List.of(), filesWith(pack(folder, with(Keep.BY)), MARK + "3"));
        var notes = pack(folder, with(Keep.NOTES));
        assertTrue(filesWith(notes, MARK + "2").contains("readings.csv"));
        assertTrue(filesWith(notes, MARK + "3").contains("readings.csv"));
        assertEquals(List.of(), filesWith(notes, MARK + "1"));
        var times = pack(folder, with(Keep.TIMES));
        assertTrue(filesWith(times, MARK + "4").contains("readings.csv"));
        assertTrue(filesWith(times, "T08:15:30.120Z").contains("seal.json"));
    }

    @Test
    void photosGoAlongSmallAndWithoutWhatCamerasWriteIntoThem() throws IOException {
        var pack = pack(personal("mine"), with(Keep.PHOTOS));
        assertTrue(pack.files().containsKey("photos/1.jpg"));
        assertEquals(List.of(), filesWith(pack, MARK + "9"));
        assertEquals(List.of(), filesWith(pack, MARK + "6"));
        assertEquals(List.of("photos.csv", "report.html"), filesWith(pack, MARK + "7"));
        assertTrue(text(pack.files().get("report.html")).contains("data:image/jpeg"));
        assertEquals(Check.AGREES, verdict(Verification.of(pack), "the report"));
    }

    private static String verdict(Verification verification, String what) {
        return verification.checks().stream()
                .filter(c -> c.what().equals(what))
                .map(Check::verdict)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void whatGoesAlongAsItIsIsSaid() throws IOException {
        var folder = personal("mine");
        var notices = packing(folder, PackOptions.USUAL).notices();
        assertEquals(
                "plan.yaml goes as it is, because a seal is on its bytes: with its 2 remarks and what it says in"
                        + " trial, question, crop. Read it through.",
                notices.get(0));
        assertArrayEquals(
                Files.readAllBytes(folder.resolve("plan.yaml")),
                pack(folder, PackOptions.USUAL).files().get("plan.yaml"));
    }

    @Test
    void thePlanAloneIsAProtocol() {
        var folder = home.resolve("new");
        Run.of("begin", folder);
        var packing = packing(folder, PackOptions.USUAL);
        assertTrue(packing.notices()
                .contains("There are no readings, so no results.json and no report.html: the pack is a protocol."));
        assertEquals(
                Set.of("datapackage.json", "plan.yaml"),
                PackFile.read("pack", packing.pack()).files().keySet());
    }

    /** Folder, time zone, language: nothing of them is in the bytes. */
    @Test
    void theSameTrialGivesTheSameBytesAnywhere() throws IOException {
        var first = packing(personal("one"), PackOptions.USUAL).pack();
        var usualZone = TimeZone.getDefault();
        var usualLocale = Locale.getDefault();
        try {
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Chatham"));
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertArrayEquals(
                    first, packing(personal("another name"), PackOptions.USUAL).pack());
        } finally {
            TimeZone.setDefault(usualZone);
            Locale.setDefault(usualLocale);
        }
    }

    @Test
    void farmAndLicenceAreInIt() throws IOException {
        var pack = pack(personal("mine"), new PackOptions(Set.of(), Optional.of("north-1"), Optional.of("CC-BY-4.0")));
        assertEquals(Optional.of("north-1"), pack.farm());
        assertEquals(Optional.of("CC-BY-4.0"), pack.licence());
    }
}
