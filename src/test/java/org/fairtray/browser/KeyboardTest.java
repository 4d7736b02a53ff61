package org.fairtray.browser;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** The bench without a mouse or a thumb. */
class KeyboardTest {
    private static final int MOST_STOPS = 60;

    /** Goes on with the tab key until it is there. */
    private static void tabTo(Browser browser, String selector) {
        browser.see(By.cssSelector(selector));
        for (int i = 0; i < MOST_STOPS; i++) {
            if (Boolean.TRUE.equals(browser.run("return document.activeElement.matches(arguments[0])", selector))) {
                return;
            }
            browser.keys(Keys.TAB);
        }
        fail("the tab key doesn't come to " + selector + ": " + browser.text());
    }

    private static void enter(Browser browser, String selector) {
        tabTo(browser, selector);
        browser.keys(Keys.ENTER);
    }

    @Test
    void comesInCountsAndOpensTheSealByKeysAlone(@TempDir Path folder) throws Exception {
        CountPage.layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            browser.go(bench.address() + "/pair");
            tabTo(browser, "input[name=code]");
            browser.keys(bench.code());
            tabTo(browser, "input[name=name]");
            browser.keys("Ada", Keys.ENTER);
            enter(browser, "#page h2 a");
            enter(browser, "nav a[href$='/count']");
            enter(browser, ".card .row button");
            browser.read("6 of 6 trays left");
            enter(browser, ".go .main");
            for (int left = 5; left >= 4; left--) {
                browser.see(By.id("figure-0"));
                browser.keys("3" + left, Keys.ARROW_DOWN, "12", Keys.ENTER);
                browser.read(left + " of 6 trays left");
            }
            browser.read("All counts are on the bench");
            browser.go(bench.address() + "/trial/" + folder.getFileName() + "/read");
            enter(browser, "#page section button.main");
            browser.see(By.cssSelector("dialog[open]"));
            browser.keys(Keys.ESCAPE);
            browser.until(
                    "the question stays",
                    d -> d.findElements(By.cssSelector("dialog[open]")).isEmpty());
            enter(browser, "#page section button.main");
            enter(browser, "dialog button.main");
            browser.read("The seal is open");
        }
        var readings = Files.readString(folder.resolve("readings.csv"));
        assertTrue(readings.contains(",35,12,") && readings.contains(",34,12,"), readings);
    }
}
