package org.fairtray.browser;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.fairtray.bench.BeetTrial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** Reading a trial on a phone: curves, photos, the seal, the report and the next trial. */
class ReadPageTest {
    private static final String PLAN = BeetTrial.PLAN + """
            counting: {days: [1, 2], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: through, kind: count, of: germinated, day: 2}
            expect: {control_rate: 0.35, worthwhile: 0.15}
            """;
    private static final String READINGS = """
            tray,day,frame,germinated,through
            T01,1,1,20,5
            T02,1,1,21,6
            T03,1,1,19,4
            T04,1,1,22,7
            T05,1,1,20,5
            T06,1,1,18,3
            T01,2,1,40,15
            T02,2,1,41,26
            T03,2,1,39,14
            T04,2,1,42,27
            T05,2,1,40,15
            T06,2,1,41,23
            """;

    /** An invented photo: a brown mat with green on it. */
    private static Path photo(Path folder) throws IOException {
        var image = new BufferedImage(2400, 1600, BufferedImage.TYPE_INT_RGB);
        var pen = image.createGraphics();
        pen.setColor(new Color(0x8a6d4b));
        pen.fillRect(0, 0, 2400, 1600);
        pen.setColor(new Color(0x4c8a3f));
        for (int i = 0; i < 400; i++) {
            pen.fillOval(60 * (i % 40), 160 * (i / 40), 48, 120);
        }
        pen.dispose();
        var file = folder.resolve("from-the-phone.jpg");
        ImageIO.write(image, "jpg", file.toFile());
        return file;
    }

    private static String inTheReport(Browser phone, String script) {
        return String.valueOf(phone.run("const report = document.querySelector('iframe.report-frame')?.contentDocument;"
                + " return report ? " + script + " : null"));
    }

    @Test
    void aChosenPhotoStandsInTheReportOnAPhone(@TempDir Path folder) throws Exception {
        BeetTrial.layOut(folder, PLAN);
        Files.writeString(folder.resolve("readings.csv"), READINGS);
        var trial = "/trial/" + folder.getFileName();
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(360, 740)) {
            bench.letIn(phone, "Ada");
            phone.go(bench.address() + trial + "/tray/T02?day=2");
            phone.press("Note, photo, help");
            phone.driver()
                    .findElement(By.cssSelector("input[type=file]"))
                    .sendKeys(photo(folder).toString());
            phone.read("Photo by Ada");

            phone.go(bench.address() + trial + "/read");
            phone.read("Tray T02, day 2, by Ada");
            phone.press(By.cssSelector(".photos input[type=checkbox]"));
            phone.type(By.id("words-0"), "white all over <i>below</i>" + Keys.TAB);
            phone.until("not chosen", d -> {
                try {
                    return Files.readString(folder.resolve("photos.csv")).contains("white all over") ? true : null;
                } catch (IOException e) {
                    return null;
                }
            });
            phone.picture("bench-photos");
            phone.press("Open the seal");
            phone.press("Open it for good");
            phone.read("The seal is open");
            phone.press("Analyse");
            phone.until(
                    "no photo in the report",
                    d -> inTheReport(phone, "report.querySelector('.photos img')?.naturalWidth")
                                    .equals("1000")
                            ? true
                            : null);
            assertTrue(inTheReport(phone, "report.querySelector('.photos figcaption').textContent")
                    .contains("white all over <i>below</i>"));
            phone.picture("bench-read-phone");
            assertEquals(
                    "true",
                    inTheReport(phone, "report.documentElement.scrollWidth <= report.documentElement.clientWidth"));
            assertTrue(Boolean.TRUE.equals(
                    phone.run("return document.documentElement.scrollWidth <= document.documentElement.clientWidth")));
            phone.press("See what is left out");
            phone.read("photos, 1 of them, with the places and times in them, and photos.csv");
            phone.read("Save beet");
            phone.picture("bench-pack-phone");
            phone.press("Plan the trial after this one");
            phone.read("Its plan");
            phone.picture("bench-next-phone");

            phone.press(By.cssSelector(".photos input[type=checkbox]"));
            phone.until(
                    "still chosen",
                    d -> phone.driver().findElements(By.id("words-0")).isEmpty() ? true : null);
            assertEquals("photo,tray,day,words\n", Files.readString(folder.resolve("photos.csv")));
            assertEquals(List.of(), phone.barriers());
            assertEquals(List.of(), bench.defects());
        }
        assertFalse(Files.exists(folder.resolve("photos").resolve("from-the-phone.jpg")), "named by the bench");
    }
}
