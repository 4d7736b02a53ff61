package org.fairtray.browser;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A headless browser with a profile of its own, as one phone or laptop. */
final class Browser implements AutoCloseable {
    private static final List<String> PROGRAMS = List.of("/usr/bin/chromium", "/usr/bin/google-chrome");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
    private static final Duration PATIENCE = Duration.ofSeconds(20);

    private final ChromeDriver driver;

    private Browser(ChromeDriver driver) {
        this.driver = driver;
    }

    /** A browser with a screen of this size; the test is skipped where none is installed. */
    static Browser open(int width, int height) {
        var program =
                PROGRAMS.stream().map(Path::of).filter(Files::isExecutable).findFirst();
        assumeTrue(
                program.isPresent() && Files.isExecutable(DRIVER),
                "skipped: no headless browser here; install chromium and chromium-driver");
        var options = new ChromeOptions();
        options.setBinary(program.get().toFile());
        options.addArguments(
                "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars");
        var service = new ChromeDriverService.Builder()
                .usingDriverExecutable(DRIVER.toFile())
                .build();
        var browser = new Browser(new ChromeDriver(service, options));
        browser.screen(width, height);
        return browser;
    }

    /** Sets the size of the screen as a phone has it, which windows can't be made as narrow as. */
    private void screen(int width, int height) {
        driver.manage().window().setSize(new Dimension(Math.max(width, 500), height + 150));
        driver.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", width < 500));
    }

    ChromeDriver driver() {
        return driver;
    }

    void go(String address) {
        driver.get(address);
    }

    /** Cuts the line, or mends it. */
    void offline(boolean cut) {
        line(cut, Duration.ZERO);
    }

    /** Lets every answer take so long. */
    void slow(Duration latency) {
        line(false, latency);
    }

    private void line(boolean cut, Duration latency) {
        driver.executeCdpCommand("Network.enable", Map.of());
        driver.executeCdpCommand(
                "Network.emulateNetworkConditions",
                Map.of(
                        "offline",
                        cut,
                        "latency",
                        latency.toMillis(),
                        "downloadThroughput",
                        -1,
                        "uploadThroughput",
                        -1));
    }

    /** Waits until something is so. */
    <T> T until(String what, Function<ChromeDriver, T> condition) {
        return new WebDriverWait(driver, PATIENCE)
                .withMessage(() -> what + "; the page says: " + text() + "; faults: " + faults() + "; at "
                        + driver.getCurrentUrl())
                .ignoring(NoSuchElementException.class)
                .ignoring(StaleElementReferenceException.class)
                .until(d -> condition.apply(driver));
    }

    WebElement see(By by) {
        return until("no " + by, d -> {
            var found = d.findElement(by);
            return found.isDisplayed() ? found : null;
        });
    }

    /** Waits for words on the page. */
    void read(String words) {
        until("no '" + words + "'", d -> text().contains(words) ? true : null);
    }

    void press(By by) {
        until("no " + by + " to press", d -> {
            var found = d.findElement(by);
            if (!found.isDisplayed() || !found.isEnabled()) {
                return null;
            }
            // As far as the page itself brings what has the focus into view, and not under what stays in place.
            run("arguments[0].scrollIntoView({block: 'nearest'})", found);
            found.click();
            return true;
        });
    }

    /** Presses the button or link with these words. */
    void press(String words) {
        press(By.xpath(
                "//*[self::button or self::a or self::summary][contains(normalize-space(.), \"" + words + "\")]"));
    }

    void type(By by, String text) {
        var field = see(by);
        field.clear();
        field.sendKeys(text);
    }

    /** Puts a whole text into a field at once, as pasting does. */
    void write(By by, String text) {
        run(
                "arguments[0].focus(); arguments[0].value = arguments[1];"
                        + "arguments[0].dispatchEvent(new Event('input', {bubbles: true}));",
                see(by),
                text);
    }

    /** Presses keys, whatever has the focus. */
    void keys(CharSequence... keys) {
        new Actions(driver).sendKeys(keys).perform();
    }

    /** Everything that the page says. */
    String text() {
        var body = driver.findElement(By.tagName("body"));
        return Optional.ofNullable(body.getDomProperty("innerText")).orElse("");
    }

    Object run(String script, Object... arguments) {
        return driver.executeScript(script, arguments);
    }

    /** Keeps a picture of the screen among the pictures of the documents, where they are to be made. */
    void picture(String name) {
        var folder = System.getProperty("fairtray.pictures");
        if (folder == null || folder.isEmpty()) {
            return;
        }
        try {
            Files.createDirectories(Path.of(folder));
            Files.write(Path.of(folder, name + ".png"), driver.getScreenshotAs(OutputType.BYTES));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What the accessibility checks of axe-core find serious or critical on the page. */
    Object barriers() {
        try (var script = Browser.class.getResourceAsStream("/vendored/axe.min.js")) {
            run(new String(script.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return driver.executeAsyncScript("const done = arguments[0]; axe.run(document, {resultTypes: ['violations']})"
                + ".then(r => done(r.violations.filter(v => ['serious', 'critical'].includes(v.impact))"
                + ".map(v => v.id + ': ' + v.nodes.map(n => n.html).slice(0, 3).join(' | '))));");
    }

    /** What went wrong in the page's scripts, as far as the browser tells. */
    List<String> faults() {
        return Stream.of(driver.manage().logs().get("browser"))
                .flatMap(log -> log.getAll().stream())
                .filter(entry -> entry.getLevel().equals(java.util.logging.Level.SEVERE))
                .map(entry -> entry.getMessage())
                .filter(message -> !message.contains("Failed to load resource"))
                .toList();
    }

    @Override
    public void close() {
        driver.quit();
    }
}
