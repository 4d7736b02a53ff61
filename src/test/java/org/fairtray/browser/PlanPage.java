package org.fairtray.browser;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.support.ui.Select;

/** The plan's page as a grower uses it: its form, its text, its line of advice. */
final class PlanPage {
    private static final Path READY = Path.of("designs");

    private PlanPage() {}

    /** Writes a plan into a folder of its own among the bench's trials. */
    static Path plan(Path folder, String text) throws Exception {
        var file = Files.createDirectories(folder.resolve("beet")).resolve("plan.yaml");
        return Files.writeString(file, text);
    }

    static String ready(String name) throws Exception {
        return Files.readString(READY.resolve(name + ".yaml"));
    }

    static void open(OpenBench bench, Browser browser) {
        bench.letIn(browser, "Ada");
        again(bench, browser);
    }

    static void again(OpenBench bench, Browser browser) {
        browser.go(bench.address() + "/trial/beet/plan");
        browser.see(By.cssSelector(".part"));
    }

    static String text(Browser browser) {
        return browser.driver().findElement(By.id("plan-text")).getDomProperty("value");
    }

    static By labelled(String part, String label) {
        return By.xpath(
                "//details[.//summary/strong[.='" + part + "']]//label[.=\"" + label + "\"]/following-sibling::*[1]");
    }

    static WebElement field(Browser browser, String part, String label) {
        return browser.see(labelled(part, label));
    }

    /** Types as a grower does: all that stood there is marked and typed over. */
    static void type(Browser browser, String part, String label, String words) {
        field(browser, part, label).sendKeys(Keys.chord(Keys.CONTROL, "a"), words, Keys.TAB);
    }

    static void choose(Browser browser, String part, String label, String words) {
        new Select(field(browser, part, label)).selectByVisibleText(words);
    }

    static void has(Browser browser, String words) {
        assertTrue(text(browser).contains(words), () -> "no '" + words + "' in\n" + text(browser));
    }

    static String line(Browser browser) {
        return browser.driver().findElement(By.cssSelector(".save p")).getText();
    }

    static void says(Browser browser, String words) {
        browser.until(
                "not '" + words + "' but '" + line(browser) + "'",
                d -> line(browser).contains(words) ? true : null);
    }

    static void save(Browser browser) {
        browser.press("Save the plan");
        browser.until(
                "not saved", d -> d.findElement(By.cssSelector(".save button")).isEnabled() ? null : true);
    }

    /** Presses a button of the form, with nothing of the page in front of it. */
    static void press(Browser browser, By by) {
        browser.run("arguments[0].scrollIntoView({block: 'center'})", browser.see(by));
        browser.press(by);
    }

    static void press(Browser browser, String words) {
        press(browser, By.xpath("//*[self::button or self::summary][contains(normalize-space(.), \"" + words + "\")]"));
    }
}
