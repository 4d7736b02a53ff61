package org.fairtray.browser;

import static org.fairtray.browser.CountPage.HIGH;
import static org.fairtray.browser.CountPage.WIDE;
import static org.fairtray.browser.CountPage.at;
import static org.fairtray.browser.CountPage.count;
import static org.fairtray.browser.CountPage.layOut;
import static org.fairtray.browser.CountPage.listed;
import static org.fairtray.browser.CountPage.onTheBench;
import static org.fairtray.browser.CountPage.phone;
import static org.fairtray.browser.CountPage.sown;
import static org.fairtray.browser.CountPage.tap;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.fairtray.bench.BeetTrial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** The list and a tray on screens of any size: nothing wider, nothing pale, nothing hidden. */
class CountScreenTest {
    @TempDir
    Path folder;

    static void notWider(Browser phone, String page) {
        var wider = phone.run("const end = document.documentElement.clientWidth + 1;"
                + "return [...document.querySelectorAll('body *')].filter(e => !e.closest('.unseen')"
                + " && e.getBoundingClientRect().right > end).map(e => e.outerHTML.slice(0, 80))");
        assertEquals(List.of(), wider, page);
        assertTrue(
                Boolean.TRUE.equals(phone.run(
                        "return document.documentElement.scrollWidth <= document.documentElement.clientWidth")),
                page);
    }

    /** What axe-core finds short of 7 to 1 between letters and what is behind them. */
    static void paleLetters(Browser phone, String page) throws Exception {
        assertEquals(List.of(), phone.barriers(), page);
        var pale = phone.driver()
                .executeAsyncScript(
                        "const done = arguments[0]; axe.run(document, {runOnly: ['color-contrast-enhanced']})"
                                + ".then(r => done(r.violations.flatMap(v => v.nodes.map(n => n.html + n.failureSummary))));");
        assertEquals(List.of(), pale, page);
    }

    @ParameterizedTest
    @ValueSource(ints = {100, 150, 200})
    void fitsThePhoneAtAnyZoom(int percent) throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(WIDE * 100 / percent, HIGH * 100 / percent)) {
            bench.letIn(phone, "Ada");
            sown(phone, bench, folder);
            var tray = listed(phone).get(0);
            phone.picture("count-list-" + percent);
            notWider(phone, "list");
            paleLetters(phone, "list");
            phone.go(at(bench, folder, "/tray/" + tray + "?day=0"));
            phone.see(By.id("figure-0"));
            phone.picture("count-tray-" + percent);
            notWider(phone, "tray");
            phone.press("Seeds in this frame");
            phone.press("Note, photo, help");
            phone.see(By.id("note"));
            phone.picture("count-all-open-" + percent);
            notWider(phone, "tray with all open");
            paleLetters(phone, "tray with all open");
        }
    }

    /** Both figures and all of the pad are in view at once, and what is said covers neither. */
    @Test
    void hidesNothingOnASmallPhone() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            phone.press("Count T");
            count(phone, "30", "12");
            phone.read("5 of 6 trays left");
            onTheBench(phone);
            var above = "return document.querySelector('#figure-1').getBoundingClientRect().bottom"
                    + " <= document.querySelector('.thumb').getBoundingClientRect().top"
                    + " && document.querySelector('.thumb').getBoundingClientRect().bottom <= innerHeight";
            phone.picture("count-second");
            assertTrue(Boolean.TRUE.equals(phone.run(above)));
            phone.press(By.id("figure-0"));
            tap(phone, "51");
            phone.press("Save & next");
            phone.see(By.cssSelector("#told p"));
            phone.picture("count-told");
            var covered = phone.run("const t = document.querySelector('#told').getBoundingClientRect();"
                    + "return [...document.querySelectorAll('.thumb, .figure')]"
                    + ".filter(e => e.getBoundingClientRect().top < t.bottom && e.getBoundingClientRect().bottom > t.top)"
                    + ".map(e => e.className)");
            assertEquals(List.of(), covered);
        }
    }

    @Test
    void fitsALaptopWithFourFiguresInTwoFrames() throws Exception {
        BeetTrial.layOut(folder, BeetTrial.PLAN + """
                counting: {days: [0, 1], frames_per_tray: 2, seeds_per_frame: 50}
                outcomes:
                  - {name: through, kind: count, of: germinated, day: 1}
                """);
        try (var bench = new OpenBench(folder);
                var laptop = Browser.open(1280, 800)) {
            bench.letIn(laptop, "Ada");
            sown(laptop, bench, folder);
            laptop.picture("count-list-laptop");
            notWider(laptop, "list");
            laptop.press("Count T");
            laptop.see(By.id("figure-3"));
            laptop.keys("40", Keys.ARROW_DOWN, "20", Keys.ARROW_DOWN, "41", Keys.ARROW_DOWN, "21");
            laptop.read("Seeds in frame 1: 50, frame 2: 50 (as planned).");
            laptop.picture("count-tray-laptop");
            notWider(laptop, "tray");
            paleLetters(laptop, "tray");
            laptop.keys(Keys.ENTER);
            laptop.read("5 of 6 trays left");
            onTheBench(laptop);
        }
    }
}
