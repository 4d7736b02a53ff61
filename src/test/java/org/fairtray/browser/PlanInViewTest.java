package org.fairtray.browser;

import static org.fairtray.browser.PlanPage.has;
import static org.fairtray.browser.PlanPage.labelled;
import static org.fairtray.browser.PlanPage.open;
import static org.fairtray.browser.PlanPage.plan;
import static org.fairtray.browser.PlanPage.press;
import static org.fairtray.browser.PlanPage.ready;
import static org.fairtray.browser.PlanPage.says;
import static org.fairtray.browser.PlanPage.type;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan's page on a phone and on a laptop: what is in view, what fits, and that names do no harm. */
class PlanInViewTest {
    private static final String HARM = "<img src=x onerror=window.harmed=1>";

    @Test
    void takesNoHarmFromNames(@TempDir Path folder) throws Exception {
        plan(
                folder,
                ready("weight-by-soak")
                        .replace("trial: Cover", "trial: \"" + HARM + "\" # Cover")
                        .replace("name: soak", "name: \"" + HARM + "\"")
                        .replace("hemp", "\"" + HARM.replace("1", "2") + "\"")
                        .replace("name: layer", "name: \"" + HARM.replace("1", "3") + "\"")
                        .replace("unit: kg", "\"" + HARM + "\": 1, unit: kg"));
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(360, 740)) {
            open(bench, browser);
            browser.press("Open all parts");
            browser.read("Only in the text: factors › 1 › " + HARM);
            browser.read("6 × " + HARM.replace("1", "3"));
            assertNull(browser.run("return window.harmed"));
            assertEquals(0L, browser.run("return document.querySelectorAll('#page img').length"));
            assertTrue(fits(browser));
            assertEquals(List.of(), browser.faults());
        }
    }

    private static boolean fits(Browser browser) {
        return Boolean.TRUE.equals(
                browser.run("return document.documentElement.scrollWidth <= document.documentElement.clientWidth"));
    }

    @Test
    void onAPhoneTheAdviceIsOneLineAndOnePressAway(@TempDir Path folder) throws Exception {
        plan(folder, ready("plain"));
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(360, 740)) {
            open(bench, phone);
            says(phone, "randomised blocks, 12 trays. soak: 15 points seen in ");
            phone.picture("plan-phone");
            phone.press("What you vary");
            type(phone, "What you vary", "Levels, with commas between", "0, 4, 8");
            phone.read("soak (3 levels)");
            assertTrue(inView(phone, ".save .main") && inView(phone, ".save p"));
            assertTrue(fits(phone));
            phone.picture("plan-phone-part");
            phone.press("See the advice");
            phone.until("advice not in view", d -> inView(phone, "#advice-head") ? true : null);
            phone.picture("plan-phone-advice");
            assertTrue(phone.see(labelled("What you vary", "Name")).isDisplayed());
            phone.press("Open all parts");
            assertTrue(fits(phone));
            type(phone, "How many trays", "Trays of each treatment", "many");
            says(phone, "One thing is wrong.");
            phone.press("See the advice");
            phone.press("Go to line");
            assertEquals("plan-text", phone.run("return document.activeElement.id"));
            assertEquals("replicates: many", phone.run("return getSelection().toString()"));
            assertEquals(List.of(), phone.barriers(), "plan on a phone");
        }
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            open(bench, browser);
            says(browser, "randomised blocks");
            assertTrue(inView(browser, "#advice-head") && inView(browser, ".save .main"));
            browser.picture("plan-laptop");
            browser.press("Open all parts");
            browser.run("document.querySelectorAll('.part')[12].scrollIntoView()");
            assertTrue(inView(browser, "#advice-head"));
            assertEquals(List.of(), browser.barriers(), "plan on a laptop");
        }
    }

    @Test
    void staysOfUseWhileTheAdviceIsBeingWorkedOut(@TempDir Path folder) throws Exception {
        plan(folder, ready("plain"));
        try (var bench = new OpenBench(folder);
                var phone = Browser.open(360, 740)) {
            open(bench, phone);
            says(phone, "randomised blocks, 12 trays.");
            phone.slow(Duration.ofSeconds(6));
            press(phone, "What you vary");
            type(phone, "What you vary", "Levels, with commas between", "0, 4, 8");
            says(phone, "Still being worked out; type on. What is said here is of the plan before.");
            type(phone, "What you vary", "Levels, with commas between", "0, 9");
            has(phone, "levels: [0, 9]}");
            phone.slow(Duration.ZERO);
            type(phone, "What you vary", "Levels, with commas between", "0, 4, 8");
            says(phone, "randomised blocks, 9 trays");
            assertFalse(phone.text().contains("Still being worked out"));
        }
    }

    private static boolean inView(Browser browser, String selector) {
        return Boolean.TRUE.equals(browser.run(
                "const at = document.querySelector(arguments[0]).getBoundingClientRect();"
                        + "return at.top >= -1 && at.bottom <= innerHeight + 1",
                selector));
    }
}
