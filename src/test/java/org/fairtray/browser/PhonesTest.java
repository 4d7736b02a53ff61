package org.fairtray.browser;

import static org.fairtray.browser.CountPage.count;
import static org.fairtray.browser.CountPage.layOut;
import static org.fairtray.browser.CountPage.readings;
import static org.fairtray.browser.CountPage.shownTray;
import static org.fairtray.browser.CountPage.sown;
import static org.fairtray.browser.CountPage.tap;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;

/** Counting on phones: with one thumb, out of reach and back, two at once, and text that means harm. */
class PhonesTest {
    private static final int WIDE = 360;
    private static final int HIGH = 740;
    private static final String HARM = "<img src=x onerror=window.harmed=1>\"'&lt;";

    @Test
    void countsWithAThumbOutOfReachAndBack(@TempDir Path folder) throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(WIDE, HIGH)) {
            bench.letIn(phone, "Ada");
            sown(phone, bench, folder);
            phone.picture("bench-today");
            phone.press("Count T");
            phone.picture("bench-tray");
            count(phone, "30", "12");
            phone.read("5 of 6 trays left");
            phone.offline(true);
            count(phone, "31", "13");
            phone.read("1 count waits");
            phone.picture("bench-out-of-reach");
            count(phone, "32", "14");
            phone.read("2 counts wait");
            phone.offline(false);
            phone.go(bench.address() + "/trial/" + folder.getFileName() + "/count");
            phone.read("All counts are on the bench");
            phone.read("3 of 6 trays left");
            assertTrue(Boolean.TRUE.equals(
                    phone.run("return document.documentElement.scrollWidth <= document.documentElement.clientWidth")));
        }
        var lines = readings(folder).lines().toList();
        assertEquals(4, lines.size(), lines.toString());
        for (var figures : List.of(",30,12,", ",31,13,", ",32,14,")) {
            assertEquals(1, lines.stream().filter(l -> l.contains(figures)).count(), lines.toString());
        }
    }

    @Test
    void refusesWhatCannotBeAndAsksAboutAFall(@TempDir Path folder) throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(WIDE, HIGH)) {
            bench.letIn(phone, "Ada");
            sown(phone, bench, folder);
            phone.press("Count T");
            var first = shownTray(phone);
            phone.press(By.id("figure-0"));
            tap(phone, "60");
            phone.read("50");
            phone.press("Save & next");
            assertFalse(phone.text().contains("5 of 6"), phone.text());
            phone.press(By.id("figure-0"));
            phone.press(By.xpath("//button[@aria-label='Empty: not read']"));
            count(phone, "20", "9");
            phone.read("5 of 6 trays left");
            phone.go(bench.address() + "/trial/" + folder.getFileName() + "/tray/" + first + "?day=1");
            phone.read("day 0");
            phone.press("Stay with day 1");
            count(phone, "18", "9");
            phone.read("Count again");
            phone.picture("bench-fall");
            phone.press("too high");
            phone.read("5 of 6 trays left");
            phone.read("All counts are on the bench");
        }
        var rows = readings(folder).lines().filter(l -> l.contains(",18,9,")).count();
        assertEquals(2, rows, readings(folder));
    }

    @Test
    void showsWhereTwoCountersDiffer(@TempDir Path folder) throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var one = Browser.open(WIDE, HIGH);
                var other = Browser.open(WIDE, HIGH)) {
            bench.letIn(one, "Ada");
            bench.letIn(other, "Ben");
            sown(one, bench, folder);
            one.press("Count T");
            var tray = shownTray(one);
            var address = bench.address() + "/trial/" + folder.getFileName() + "/tray/" + tray + "?day=0";
            other.go(address);
            other.see(By.id("figure-0"));
            other.offline(true);
            count(one, "30", "12");
            one.read("5 of 6 trays left");
            count(other, "33", "12");
            other.read("1 count waits");
            other.offline(false);
            other.read("All counts are on the bench");
            other.go(bench.address() + "/trial/" + folder.getFileName() + "/count");
            other.read("33");
            other.read("Ada");
            other.picture("bench-differ");
            assertTrue(readings(folder).contains(",30,12,") || readings(folder).isEmpty(), readings(folder));
            other.press("33");
            other.until("still differing", d -> other.text().contains("needs you") ? null : true);
        }
        assertTrue(readings(folder).contains(",33,12,"), readings(folder));
    }

    @Test
    void takesNoHarmFromText(@TempDir Path folder) throws Exception {
        layOut(folder, "Beet " + HARM, "Why " + HARM + "?");
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(WIDE, HIGH)) {
            bench.letIn(phone, HARM.substring(0, 38));
            phone.read("<img src=x");
            sown(phone, bench, folder);
            phone.press("Count T");
            phone.press("Note, photo, help");
            phone.type(By.id("note"), HARM);
            count(phone, "30", "12");
            phone.read("5 of 6 trays left");
            phone.go(bench.address() + "/trial/" + folder.getFileName());
            phone.read("<img src=x");
            assertEquals(null, phone.run("return window.harmed"));
            assertEquals(List.of(), phone.faults());
        }
        assertTrue(readings(folder).contains("onerror"), readings(folder));
    }

    @Test
    void hasNoSeriousBarrier(@TempDir Path folder) throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(WIDE, HIGH)) {
            phone.go(bench.address() + "/pair");
            phone.see(By.name("code"));
            assertEquals(List.of(), phone.barriers(), "pair");
            bench.letIn(phone, "Ada");
            assertEquals(List.of(), phone.barriers(), "trials");
            var trial = bench.address() + "/trial/" + folder.getFileName();
            for (var page : List.of("", "/plan", "/count", "/read")) {
                phone.go(trial + page);
                phone.until("still loading", d -> phone.text().contains("One moment") ? null : true);
                phone.see(By.cssSelector("#page > div > *"));
                assertEquals(List.of(), phone.barriers(), page);
            }
            phone.go(bench.address() + "/");
            phone.press("Phones and helpers");
            phone.read("Who is in");
            assertEquals(List.of(), phone.barriers(), "people");
            sown(phone, bench, folder);
            assertEquals(List.of(), phone.barriers(), "today");
            phone.press("Count T");
            phone.see(By.id("figure-0"));
            assertEquals(List.of(), phone.barriers(), "tray");
        }
    }
}
