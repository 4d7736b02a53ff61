package org.fairtray.browser;

import static org.fairtray.browser.CountPage.HIGH;
import static org.fairtray.browser.CountPage.WIDE;
import static org.fairtray.browser.CountPage.at;
import static org.fairtray.browser.CountPage.count;
import static org.fairtray.browser.CountPage.layOut;
import static org.fairtray.browser.CountPage.listed;
import static org.fairtray.browser.CountPage.onTheBench;
import static org.fairtray.browser.CountPage.phone;
import static org.fairtray.browser.CountPage.readings;
import static org.fairtray.browser.CountPage.shownTray;
import static org.fairtray.browser.CountPage.tap;
import static org.fairtray.browser.CountPage.waitForLine;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.fairtray.bench.BeetTrial;
import org.fairtray.files.TrialFolder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;

/** What the page for counting does besides: seeds, photos, notes, undoing, walking, and what it refuses. */
class CountPageTest {
    private static final By SEEDS = By.id("seeds-1");

    @TempDir
    Path folder;

    @Test
    void seedsOfAFrameAreSaidOnceKeptAndUndone() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            phone.press("Count T");
            var tray = shownTray(phone);
            phone.read("Seeds in this frame: 50 (as planned).");
            count(phone, "30", "12");
            phone.read("5 of 6 trays left");
            phone.go(at(bench, folder, "/tray/" + tray + "?day=0"));
            phone.press("Seeds in this frame");
            phone.type(SEEDS, "29");
            phone.read("29 seeds can't be: 30 germinated were counted in this frame.");
            phone.press("Save & next");
            assertEquals(tray, shownTray(phone));
            phone.type(SEEDS, "2x");
            phone.read("“2x” is not a number of seeds.");
            phone.type(SEEDS, "60");
            phone.read("Seeds in this frame: 60 (plan: 50).");
            phone.picture("count-seeds");
            phone.press(By.id("figure-0"));
            tap(phone, "61");
            phone.read("61 germinated can't be: the frame has 60 seeds.");
            phone.press(By.xpath("//button[@aria-label='Empty: not read']"));
            tap(phone, "55");
            phone.offline(true);
            phone.press("Save & next");
            phone.read("2 counts wait");
            phone.offline(false);
            phone.go(at(bench, folder, "/count"));
            onTheBench(phone);
            assertFalse(phone.text().contains("two figures"), phone.text());
            waitForLine(phone, folder, tray + ",0,60,55,12,");
            assertTrue(readings(folder).startsWith("tray,day,sown,germinated,through"), readings(folder));
            assertEquals(
                    60, new TrialFolder(folder).read().readings().get(0).sown().getAsInt());
            phone.go(at(bench, folder, "/tray/" + tray + "?day=0"));
            phone.read("Seeds in this frame: 60 (plan: 50).");
            phone.press("Seeds in this frame");
            phone.type(SEEDS, "58");
            phone.press("Save & next");
            onTheBench(phone);
            waitForLine(phone, folder, tray + ",0,58,55,12,");
            phone.press("Undo " + tray);
            onTheBench(phone);
            waitForLine(phone, folder, tray + ",0,60,55,12,");
        }
    }

    /** A photo as a phone takes it, with the place where it was taken. */
    private static byte[] photo() throws Exception {
        var picture = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB), "jpg", picture);
        byte[] jpeg = picture.toByteArray();
        byte[] exif = "Exif\0\0MM\0*\0\0\0\10\0\0 taken at 52.1N 5.6E".getBytes(StandardCharsets.ISO_8859_1);
        var with = new ByteArrayOutputStream();
        with.write(jpeg, 0, 2);
        with.write(new byte[] {(byte) 0xff, (byte) 0xe1, 0, (byte) (exif.length + 2)});
        with.write(exif);
        with.write(jpeg, 2, jpeg.length - 2);
        return with.toByteArray();
    }

    private List<Path> photos() throws Exception {
        if (!Files.exists(folder.resolve("photos"))) {
            return List.of();
        }
        try (var files = Files.list(folder.resolve("photos"))) {
            return files.sorted().toList();
        }
    }

    @Test
    void photosComeWithoutTheirPlaceAndWaitOutOfReach(@TempDir Path elsewhere) throws Exception {
        layOut(folder, "Beet", "Why?");
        var file = elsewhere.resolve("tray.jpg");
        Files.write(file, photo());
        assertTrue(new String(photo(), StandardCharsets.ISO_8859_1).contains("52.1N"));
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            phone.press("Count T");
            var tray = shownTray(phone);
            phone.press("Note, photo, help");
            var input = By.cssSelector("input[type=file]");
            phone.driver().findElement(input).sendKeys(file.toString());
            phone.read("Photo by Ada");
            assertEquals(1, photos().size());
            phone.offline(true);
            phone.driver().findElement(input).sendKeys(file.toString());
            phone.read("Photo waits on this phone");
            assertEquals(1, photos().size());
            phone.offline(false);
            phone.go(at(bench, folder, "/count"));
            onTheBench(phone);
            assertEquals(2, photos().size());
            for (var kept : photos()) {
                byte[] bytes = Files.readAllBytes(kept);
                var text = new String(bytes, StandardCharsets.ISO_8859_1);
                assertFalse(text.contains("Exif") || text.contains("52.1N"), kept.toString());
                assertEquals(40, ImageIO.read(new ByteArrayInputStream(bytes)).getWidth());
                assertTrue(kept.getFileName().toString().startsWith(tray + "-day-0-"), kept.toString());
            }
        }
    }

    @Test
    void aNoteIsKeptAndBothAreUndone() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            phone.press("Count T");
            var tray = shownTray(phone);
            count(phone, "30", "12");
            onTheBench(phone);
            phone.go(at(bench, folder, "/tray/" + tray + "?day=0"));
            phone.press("Note, photo, help");
            phone.type(By.id("note"), "dry at the edge");
            count(phone, "31", "13");
            onTheBench(phone);
            waitForLine(phone, folder, tray + ",0,31,13,dry at the edge,");
            phone.press("Undo " + tray);
            phone.read("The figures of " + tray + " are as they were before.");
            onTheBench(phone);
            waitForLine(phone, folder, tray + ",0,30,12,,");
        }
    }

    @Test
    void refusesAtOnceAndAsksAboutAFall() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            phone.press("Count T");
            var tray = shownTray(phone);
            phone.press(By.id("figure-0"));
            tap(phone, "51");
            phone.read("51 germinated can't be: the frame has 50 seeds.");
            phone.press(By.xpath("//button[@aria-label='Empty: not read']"));
            count(phone, "20", "9");
            onTheBench(phone);
            phone.go(at(bench, folder, "/tray/" + tray + "?day=1"));
            phone.press("Stay with day 1");
            phone.read("day 0: 20");
            phone.press(By.id("figure-1"));
            tap(phone, "21");
            phone.press(By.id("figure-0"));
            tap(phone, "18");
            phone.read("21 through can't be: only 18 germinated.");
            phone.press(By.id("figure-1"));
            phone.press(By.xpath("//button[@aria-label='Empty: not read']"));
            tap(phone, "9");
            phone.press("Save & next");
            phone.read("Day 0 said 20, for day 1 you say 18. Counts can't fall.");
            phone.picture("count-fall");
            CountScreenTest.paleLetters(phone, "asked about a fall");
            phone.press("Count again");
            phone.press(By.xpath("//button[@aria-label='Empty: not read']"));
            tap(phone, "22");
            phone.press("Save & next");
            onTheBench(phone);
            waitForLine(phone, folder, tray + ",1,22,9,");
        }
    }

    @Test
    void saysHowLongItTakesAfterThreeTrays() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            // Two minutes go by on each tray, by the phone's own clock.
            phone.run("const start = Date.now(); window.later = 0; Date.now = () => start + window.later;");
            phone.press("Count T");
            for (int left = 5; left >= 3; left--) {
                assertFalse(phone.text().contains("min a tray"), phone.text());
                phone.see(By.id("figure-0"));
                phone.run("window.later += 120000;");
                count(phone, "30", "12");
                phone.read(left + " of 6 trays left");
            }
            phone.read("about 2.0 min a tray, 6 min left");
            onTheBench(phone);
            var journal = Files.readString(folder.resolve("readings.journal"));
            assertTrue(journal.matches("(?s).*\"seconds\":12[0-9]\\.0.*"), journal);
        }
    }

    @Test
    void goesTheWayTheTraysStandAfterTheyMoved() throws Exception {
        BeetTrial.layOut(folder, BeetTrial.PLAN + """
                rotation: {level: spot, days: [1]}
                counting: {days: [0, 1], frames_per_tray: 1, seeds_per_frame: 50}
                outcomes:
                  - {name: through, kind: count, of: germinated, day: 1}
                """);
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            var sown = listed(phone);
            phone.go(at(bench, folder, "/count?day=1"));
            phone.read("Trays of day 1");
            var moved = listed(phone);
            assertFalse(sown.equals(moved), sown.toString());
            var places = phone.driver().findElements(By.cssSelector(".which")).stream()
                    .map(e -> e.getText()
                            .replaceFirst("T\\d+ ", "")
                            .lines()
                            .findFirst()
                            .orElseThrow())
                    .toList();
            assertEquals(places.stream().sorted().toList(), places);
            phone.press("Count " + moved.get(0));
            assertEquals(moved.get(0), shownTray(phone));
        }
    }

    @Test
    void aConflictHasNoBarrierAndIsSettled() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var one = phone(bench, folder);
                var other = Browser.open(WIDE, HIGH)) {
            bench.letIn(other, "Ben");
            one.press("Count T");
            var tray = shownTray(one);
            other.go(at(bench, folder, "/tray/" + tray + "?day=0"));
            other.see(By.id("figure-0"));
            other.offline(true);
            count(one, "30", "12");
            onTheBench(one);
            count(other, "33", "12");
            other.read("1 count waits");
            other.offline(false);
            onTheBench(other);
            other.go(at(bench, folder, "/tray/" + tray + "?day=0"));
            other.read("germinated: two figures");
            assertTrue(
                    Boolean.TRUE.equals(other.run(
                            "const c = document.querySelector('.needs').getBoundingClientRect(); return c.top >= 0")),
                    "both figures are seen first");
            other.picture("count-conflict");
            CountScreenTest.paleLetters(other, "conflict");
            CountScreenTest.notWider(other, "conflict");
            other.press("33 is right");
            waitForLine(other, folder, tray + ",0,33,12,");
        }
    }
}
