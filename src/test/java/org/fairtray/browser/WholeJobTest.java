package org.fairtray.browser;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.support.ui.Select;

/** From an empty folder to a report, as one grower does it. */
class WholeJobTest {
    @Test
    void fromAnEmptyFolderToAReport(@TempDir Path folder) throws Exception {
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            bench.letIn(browser, "Ada");
            browser.type(By.id("name"), "beet-cover");
            new Select(browser.see(By.id("like"))).selectByIndex(1);
            browser.press("Make it");
            browser.see(By.id("plan-text"));
            browser.read("trays");
            browser.picture("bench-plan");
            browser.go(bench.address() + "/trial/beet-cover");
            browser.type(By.id("seed"), "7");
            browser.press("Lay out");
            browser.read("Print and sow: now");
            browser.press("Make the sheets");
            browser.read("Open sheets.pdf");
            browser.picture("bench-laid-out");
            browser.press("Say that it is sown");
            browser.read("Count: now");
            assertEquals(List.of(), bench.defects());
            assertEquals(List.of(), browser.faults());
        }
    }
}
