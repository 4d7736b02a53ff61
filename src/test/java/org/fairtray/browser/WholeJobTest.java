package org.fairtray.browser;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;

/** From an empty folder to a report, as one grower does it. */
class WholeJobTest {
    private static final String PLAN = """
            format: 1
            trial: Cover on beet  # invented, for this test
            question: Does a cover of 3 kg change how many roots get through?
            factors:
              - {name: cover, unit: kg, levels: [0, 3]}
            place:
              - {name: shelf, count: 3}
              - {name: spot, count: 2}
            counting: {days: [1, 2], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: through, kind: count, of: germinated, day: 2}
            expect: {control_rate: 0.35, worthwhile: 0.15}
            """;

    @Test
    void fromAnEmptyFolderToAReport(@TempDir Path folder) throws Exception {
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            bench.letIn(browser, "Ada");
            plan(browser);
            browser.go(bench.address() + "/trial/beet-cover");
            layOut(browser);
            count(bench, browser);
            analyse(bench, browser);
            assertEquals(List.of(), bench.defects());
            assertEquals(List.of(), browser.faults());
        }
        var readings = Files.readString(folder.resolve("beet-cover/readings.csv"));
        assertEquals(7, readings.lines().count(), readings);
        assertTrue(Files.exists(folder.resolve("beet-cover/report.html")));
    }

    private static void plan(Browser browser) {
        browser.type(By.id("name"), "beet-cover");
        new Select(browser.see(By.id("like"))).selectByIndex(0);
        browser.press("Make it");
        browser.see(By.id("plan-text"));
        browser.write(By.id("plan-text"), PLAN);
        browser.read("cover: 15 points seen in");
        browser.press("What you vary");
        browser.run("scrollTo(0, 0)");
        browser.picture("bench-plan");
        browser.press("Save the plan");
        browser.until(
                "not saved", d -> browser.see(By.cssSelector(".save button")).isEnabled() ? null : true);
    }

    private static void layOut(Browser browser) {
        browser.type(By.id("seed"), "7");
        browser.press("Lay out");
        browser.read("Print and sow: now");
        browser.press("Make the sheets");
        browser.read("Open sheets.pdf");
        browser.picture("bench-laid-out");
        browser.press("Say that it is sown");
        browser.read("Count: now");
    }

    private static void count(OpenBench bench, Browser browser) {
        browser.go(bench.address() + "/trial/beet-cover/count");
        new Select(browser.see(By.cssSelector(".daybar select"))).selectByValue("2");
        browser.press("Count T");
        for (int tray = 0; tray < 6; tray++) {
            int left = 6 - tray;
            browser.read(left + " of 6 trays left");
            browser.see(By.id("figure-0"));
            browser.keys(Integer.toString(30 + tray), Keys.ARROW_DOWN, Integer.toString(10 + tray));
            browser.keys(Keys.ENTER);
        }
        browser.read("0 of 6 trays left");
        browser.read("All counts are on the bench");
        assertFalse(browser.text().contains("cover"), browser.text());
    }

    private static void analyse(OpenBench bench, Browser browser) {
        browser.go(bench.address() + "/trial/beet-cover");
        browser.press("Read, and open the seal");
        browser.read("Looking isn’t analysing.");
        browser.press("Open the seal");
        browser.press("Open it for good");
        browser.read("The seal is open");
        browser.press("Analyse");
        browser.read("cover: ");
        browser.read("Save report.html");
        browser.picture("bench-read");
        var frame = browser.see(By.cssSelector("iframe.report-frame"));
        browser.driver().switchTo().frame(frame);
        browser.read("Cover on beet");
        browser.driver().switchTo().defaultContent();
        browser.press("Plan the trial after this one");
        browser.read("cover");
        browser.run("document.querySelectorAll('img.chart').forEach(i => i.loading = 'eager')");
        var charts = browser.until("no pictures", d -> {
            var states = d.executeScript("return [...document.querySelectorAll('img.chart')].map(i => i.complete +"
                    + " ' ' + (i.naturalWidth > 0) + ' ' + i.getAttribute('src').split('/curves/')[1]).join('; ')");
            return states.toString().contains("false true") ? null : states;
        });
        assertEquals(
                "true true treatment/germinated.svg; true true tray/germinated/1.svg; true true treatment/through.svg;"
                        + " true true tray/through/1.svg",
                charts);
    }
}
