package org.fairtray.browser;

import static org.fairtray.browser.PlanPage.choose;
import static org.fairtray.browser.PlanPage.field;
import static org.fairtray.browser.PlanPage.has;
import static org.fairtray.browser.PlanPage.labelled;
import static org.fairtray.browser.PlanPage.open;
import static org.fairtray.browser.PlanPage.plan;
import static org.fairtray.browser.PlanPage.press;
import static org.fairtray.browser.PlanPage.ready;
import static org.fairtray.browser.PlanPage.save;
import static org.fairtray.browser.PlanPage.says;
import static org.fairtray.browser.PlanPage.text;
import static org.fairtray.browser.PlanPage.type;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.regex.Pattern;
import org.fairtray.files.TrialFolder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.ExpectedConditions;
import org.openqa.selenium.support.ui.WebDriverWait;

/** The plan's page: its form and its text are one plan, whatever is changed where. */
class PlanPageTest {

    @Test
    void everyFieldChangesTheTextAndNothingElse(@TempDir Path folder) throws Exception {
        var file = plan(folder, ready("plain"));
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            open(bench, browser);
            browser.press("Open all parts");
            fill(browser);
            says(browser, "extended blocks, 12 trays. soak: 15 points seen in ");
            browser.picture("plan-form-open");
            save(browser);
            assertEquals(List.of(), bench.defects());
            assertEquals(List.of(), browser.faults());
        }
        var saved = Files.readString(file);
        var trial = TrialFolder.readPlan(saved);
        assertEquals(List.of("0", "4", "8"), trial.factors().get(0).levels());
        assertEquals(2, trial.restrictions().size());
        var before = remarks(ready("plain"));
        assertTrue(remarks(saved).containsAll(before), () -> before + " not in\n" + saved);
    }

    private static List<String> remarks(String text) {
        return Pattern.compile("#.*")
                .matcher(text)
                .results()
                .map(r -> r.group().strip())
                .toList();
    }

    private static void fill(Browser browser) {
        type(browser, "The question", "Title", "Soaking: 4 or 8");
        has(browser, "trial: \"Soaking: 4 or 8\"\n");
        type(browser, "What you vary", "Levels, with commas between", "0, 4, 8");
        has(browser, "  - {name: soak, unit: h, levels: [0, 4, 8]}\n");
        choose(browser, "Compared with", "Control of soak", "4");
        has(browser, "control: {soak: 4}");
        type(browser, "How many trays", "Trays of each treatment", "4");
        has(browser, "replicates: 4");
        type(browser, "Counting", "Seeds in a frame", "40");
        has(browser, "  seeds_per_frame: 40\n");
        type(browser, "What counts as such", "through", "root seen, 3 mm");
        has(browser, "  through: \"root seen, 3 mm\"\n");
        type(browser, "What you expect", "How far one shelf differs from another", "0.2");
        type(browser, "What you expect", "How alike seeds of one tray are (0 to 1)", "0.05");
        has(browser, "{control_rate: 0.35, worthwhile: 0.15, place_sd: {shelf: 0.2}, tray_correlation: 0.05}");
        type(browser, "What is sown", "Crop", "beet");
        type(browser, "What is sown", "Seed on one tray (g)", "12.5");
        has(browser, "crop: {name: beet}\n");
        has(browser, "sowing: {grams_per_tray: 12.5}\n");
        type(browser, "Costs", "Currency", "EUR");
        type(browser, "Costs", "One tray with its medium (money)", "0.80");
        has(browser, "costs: {currency: EUR, tray: 0.80}");
        type(browser, "When covers come off", "On day after sowing", "3");
        has(browser, "handling: {uncover_day: 3}\n");
        type(browser, "Sizes of trays and frames", "Tray: two sides (cm)", "40, 30");
        type(browser, "Sizes of trays and frames", "Counting frame: two sides (cm)", "8, 8");
        type(browser, "Sizes of trays and frames", "Edge without frames (cm)", "2");
        has(browser, "  tray_cm: [40, 30]\n  frame_cm: [8, 8]\n  margin_cm: 2\n");
        choose(browser, "How it is judged", "Scale of the analysis of variance", "logit");
        type(browser, "How it is judged", "Factors in one interaction, at most", "1");
        has(browser, "analysis: {anova_scale: logit, interactions: 1}");
        restrict(browser);
    }

    private static void restrict(Browser browser) {
        press(browser, "Add a restriction");
        has(browser, "restrictions:\n  - {keep_apart: treatment}\n");
        choose(browser, "What chance must keep to", "What is asked", "evenly over a place level");
        has(browser, "  - {even_over: spot, of: treatment}\n");
        choose(browser, "What chance must keep to", "Of", "soak");
        choose(browser, "What chance must keep to", "Evenly over", "shelf");
        has(browser, "  - {even_over: shelf, of: soak}\n");
        press(browser, "Add a restriction");
        has(browser, "  - {even_over: shelf, of: soak}\n  - {keep_apart: treatment}\n");
        press(browser, By.cssSelector("[aria-label='Move restriction 2 up']"));
        has(browser, "  - {keep_apart: treatment}\n  - {even_over: shelf, of: soak}\n");
    }

    @Test
    void listsGrowAndShrinkAndTheRackIsDrawnWhileOneTypes(@TempDir Path folder) throws Exception {
        plan(folder, ready("weight-by-soak"));
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            open(bench, browser);
            says(browser, "split-plot, 48 trays. cover: 25 points seen in ");
            press(browser, "Where trays stand");
            field(browser, "Where trays stand", "How many in each one around it")
                    .sendKeys(Keys.chord(Keys.CONTROL, "a"), "3");
            browser.read("3 × shelf, in each 4 × stack, in each 6 × layer: 72 places for trays.");
            press(browser, "Add a level");
            has(browser, "  - {name: layer, count: 6}\n  - {name: level 4, count: 2}\n");
            press(browser, By.cssSelector("[aria-label='Remove level 4']"));
            has(browser, "  - {name: layer, count: 6}\ndefinitions:");
            press(browser, "Trays that change places");
            choose(browser, "Trays that change places", "They exchange their", "layer");
            type(browser, "Trays that change places", "On days after sowing", "1, 2, 3");
            has(browser, "rotation: {level: layer, days: [1, 2, 3]}\n");
            press(browser, "Shared by several trays");
            press(browser, "Add a batch");
            has(browser, "batches:\n  - {name: jar 1, of: cover, count: 2}\n");
            press(browser, "Never together");
            press(browser, "Add a combination");
            choose(browser, "Never together", "mat", "coir");
            has(browser, "never:\n  - {cover: 3, soak: 8, mat: coir}\n");
            assertTrue(browser.see(labelled("Where trays stand", "Name")).isDisplayed());
        }
    }

    @Test
    void saysWhatItDoesNotKnowAndLeavesIt(@TempDir Path folder) throws Exception {
        var text = ready("plain")
                .replace("question: Does", "colour: green  # kept\nquestion: >\n  Does")
                .replace("levels: [0, 8]}", "levels: [\"0, or none\", 8], shade: dark}");
        plan(folder, text);
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            open(bench, browser);
            browser.read("Only in the text: colour, factors › 1 › levels, factors › 1 › shade.");
            says(browser, "3 things are wrong.");
            press(browser, "The question");
            type(browser, "The question", "Question", "Why?");
            assertEquals(
                    text.replaceFirst("question: >\n.*\n", "question: Why?\n").replace("\n\n\n", "\n\n"),
                    text(browser));
            press(browser, "What you vary");
            assertFalse(field(browser, "What you vary", "Levels, with commas between")
                    .isEnabled());
            press(browser, "Go to line 5");
            assertEquals("colour: green  # kept", browser.run("return getSelection().toString()"));
        }
    }

    @Test
    void knowsEveryKeyThatAPlanCanHave(@TempDir Path folder) throws Exception {
        var document = Files.readString(Path.of("docs/file-formats.md"));
        int from = document.indexOf("```yaml\n") + 8;
        plan(folder, document.substring(from, document.indexOf("```", from)));
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            open(bench, browser);
            browser.read("cress, lot L 2041, 1000 weigh 2.4 g, 1.8 g on a tray");
            assertFalse(browser.text().contains("Only in the text"), browser.text());
        }
    }

    @Test
    void showsBothWhereSomeoneElseSavedMeanwhile(@TempDir Path folder) throws Exception {
        var file = plan(folder, ready("plain"));
        var theirs = ready("plain").replace("levels: [0, 8]", "levels: [0, 12]");
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            open(bench, browser);
            press(browser, "The question");
            type(browser, "The question", "Title", "Mine");
            Files.writeString(file, theirs);
            browser.press("Save the plan");
            browser.read("Someone else saved this plan meanwhile");
            assertEquals(theirs, Files.readString(file));
            var shown = browser.driver().findElements(By.cssSelector(".texts textarea"));
            assertEquals(theirs, shown.get(0).getDomProperty("value"));
            assertTrue(shown.get(1).getDomProperty("value").contains("trial: Mine\n"));
            browser.press("Keep mine to save over it");
            save(browser);
            assertTrue(Files.readString(file).contains("trial: Mine\n"));

            type(browser, "The question", "Title", "Mine again");
            Files.writeString(file, theirs);
            browser.press("Save the plan");
            browser.press("Take theirs");
            assertEquals(theirs, text(browser));
            assertFalse(browser.see(By.cssSelector(".save button")).isEnabled());
            assertEquals(theirs, Files.readString(file));
        }
    }

    private static void answer(Browser browser, boolean yes) {
        var question =
                new WebDriverWait(browser.driver(), Duration.ofSeconds(20)).until(ExpectedConditions.alertIsPresent());
        if (yes) {
            question.accept();
        } else {
            question.dismiss();
        }
    }

    @Test
    void asksBeforeItIsLeftAndOffersTheDraftAgain(@TempDir Path folder) throws Exception {
        var file = plan(folder, ready("plain"));
        try (var bench = new OpenBench(folder);
                var browser = Browser.open(1280, 900)) {
            bench.letIn(browser, "Ada");
            browser.press("Does soaking bring");
            browser.press("Plan");
            press(browser, "The question");
            type(browser, "The question", "Title", "Mine");
            var here = browser.driver().getCurrentUrl();

            // A link within the page, and the way back from it, leave nothing.
            browser.driver().findElement(By.cssSelector(".skip")).sendKeys(Keys.ENTER);
            browser.until("not followed", d -> d.getCurrentUrl().endsWith("#page") ? true : null);
            browser.run("history.back()");
            browser.until("not back", d -> d.getCurrentUrl().equals(here) ? true : null);
            has(browser, "trial: Mine\n");

            browser.press("Count");
            answer(browser, false);
            assertEquals(here, browser.driver().getCurrentUrl());
            browser.run("history.back()");
            answer(browser, false);
            browser.until("not back", d -> d.getCurrentUrl().equals(here) ? true : null);
            has(browser, "trial: Mine\n");

            browser.run("history.back()");
            answer(browser, true);
            browser.until("still here", d -> d.getCurrentUrl().equals(here) ? null : true);
            browser.read("Where it stands");
            browser.run("history.forward()");
            browser.press("Go on with them");
            has(browser, "trial: Mine\n");

            // A driver answers what a browser asks before it closes or reloads a page; so that is asked here.
            assertEquals(false, browser.run("return dispatchEvent(new Event('beforeunload', {cancelable: true}))"));
            browser.driver().navigate().refresh();
            browser.press("Throw them away");
            assertEquals(ready("plain"), text(browser));
            browser.press("Count");
            browser.read("laid out");
        }
        assertEquals(ready("plain"), Files.readString(file));
    }
}
