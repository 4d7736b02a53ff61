package org.fairtray.browser;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.OutputType;

/** A bench that phones and helpers come to over the local network, at this computer's own address there. */
class SharingTest {
    private static final int WIDE = 360;
    private static final int HIGH = 740;
    private static final String HARM = "<img src=x onerror=window.harmed=1>";

    private static Path trial(Path trials) throws Exception {
        var folder = Files.createDirectories(trials.resolve("beet"));
        CountPage.layOut(folder, "Beet", "Why?");
        return folder;
    }

    /** The status that the bench answers a page of this browser with. */
    private static int asked(Browser browser, String method, String path, String body) {
        var script = """
                const [method, path, body, done] = arguments;
                fetch('/api/me').then(r => r.json()).then(me => fetch(path, {method, body: body ?? undefined,
                  headers: {'X-Bench-Token': me.token ?? '', 'Content-Type': 'application/json'}})).then(r => done(r.status));
                """;
        return ((Number) browser.driver().executeAsyncScript(script, method, path, body)).intValue();
    }

    private static void join(Browser phone, String code, String name) {
        phone.type(By.name("code"), code);
        phone.type(By.name("name"), name);
        phone.press("Join");
    }

    private static String code(Browser host) {
        return host.see(By.cssSelector(".code")).getText();
    }

    private static void mayNot(Browser browser, String... asks) {
        for (var ask : asks) {
            var parts = ask.split(" ", 2);
            assertEquals(403, asked(browser, parts[0], parts[1], parts[0].equals("GET") ? null : "{}"), ask);
        }
    }

    private static void readsWell(Browser browser, String page) throws Exception {
        assertTrue(
                Boolean.TRUE.equals(browser.run(
                        "return document.documentElement.scrollWidth <= document.documentElement.clientWidth")),
                page + " goes over the side");
        assertEquals(List.of(), browser.barriers(), page);
        browser.picture(page);
    }

    @Test
    void aCodeLetsOnePhoneInWhichMayCountAndNothingMore(@TempDir Path trials) throws Exception {
        trial(trials);
        try (var bench = OpenBench.shared(trials);
                var host = Browser.open(1280, 900);
                var phone = Browser.open(WIDE, HIGH);
                var second = Browser.open(WIDE, HIGH)) {
            bench.letIn(host, "Ada");
            host.press("Phones and helpers");
            host.read("Let a phone in");
            var code = code(host);
            phone.go(bench.addressForPhones());
            phone.read("The computer with the trials shows a code. It works once.");
            readsWell(phone, "pair-phone");
            join(phone, "ABCD-2345", "Ben");
            phone.read("That isn't the code of the moment. Each code lets one phone in; look for the new one.");
            readsWell(phone, "pair-refused-phone");
            join(phone, code.toLowerCase(java.util.Locale.ROOT), HARM);
            phone.read("Beet");
            readsWell(phone, "trials-phone");
            host.read(HARM + ", may count, take photos and read");
            assertNotEquals(code, code(host));
            second.go(bench.addressForPhones() + "/pair");
            join(second, code, "Eve");
            second.read("That isn't the code of the moment.");

            phone.press("Beet");
            phone.read("The next step is for the computer that the bench runs on.");
            readsWell(phone, "trial-phone");
            for (var words : List.of("Make the sheets", "Draw", "Plan", "Say that it is sown")) {
                assertFalse(phone.text().contains(words + "\n"), words + " in " + phone.text());
            }
            var trial = "/api/trials/beet";
            mayNot(phone, "GET " + trial + "/plan", "PUT " + trial + "/plan", "POST " + trial + "/lay");
            mayNot(phone, "POST " + trial + "/open", "POST /api/trials", "GET /api/people", "POST /api/links");
            phone.go(bench.addressForPhones() + "/trial/beet/count");
            phone.press("Today");
            phone.read("6 of 6 trays left");
            phone.go(bench.addressForPhones() + "/trial/beet/read");
            phone.read("It is opened at the computer that the bench runs on.");
            phone.go(bench.addressForPhones() + "/people");
            phone.read("You are here as " + HARM);
            readsWell(phone, "people-phone");
            readsWell(host, "people-laptop");
            assertNull(phone.run("return window.harmed"));
            assertNull(host.run("return window.harmed"));

            host.press(By.xpath("//li[contains(., 'onerror')]//button"));
            host.press(By.xpath("//li[contains(., 'onerror')]//button[contains(., 'Remove ')]"));
            host.read(HARM + " is out.");
            phone.go(bench.addressForPhones() + "/trial/beet");
            phone.read("This browser isn’t in any more: it was removed");
            readsWell(phone, "pair-out-phone");
            assertEquals(List.of(), phone.faults());
            assertEquals(List.of(), host.faults());
            assertEquals(List.of(), bench.defects());
        }
    }

    @Test
    void aHelperLooksOnByALinkUntilItIsTakenAway(@TempDir Path trials) throws Exception {
        trial(trials);
        try (var bench = OpenBench.shared(trials);
                var host = Browser.open(WIDE, HIGH);
                var helper = Browser.open(WIDE, HIGH)) {
            bench.letIn(host, "Ada");
            host.press("Phones and helpers");
            host.type(By.id("name"), HARM);
            host.press("Make a link");
            var link = host.see(By.id("address")).getDomProperty("value");
            host.see(By.cssSelector("form img.pairing"));
            host.run("document.querySelector('form img.pairing').scrollIntoView()");
            assertEquals(Set.of(link), host.until("no code to see", d -> {
                var seen = codesOn(host);
                return seen.isEmpty() ? null : seen;
            }));
            readsWell(host, "people-phone-host");
            helper.go(Objects.requireNonNull(link));
            helper.read("Beet");
            helper.press("Beet");
            helper.read("Where it stands");
            readsWell(helper, "trial-helper-phone");
            helper.go(bench.addressForPhones() + "/trial/beet/count");
            helper.read("Nobody has said when the trays were sown. Someone who counts can say it.");
            mayNot(helper, "POST /api/trials/beet/counts", "POST /api/trials/beet/sown", "GET /api/people");
            assertNull(helper.run("return window.harmed"));
            host.press(By.xpath("//li[contains(., 'onerror')]//button"));
            host.read("The link stops working for everyone who has it.");
            host.press(By.xpath("//li[contains(., 'onerror')]//button[contains(., 'Remove ')]"));
            host.read(HARM + " is out.");
            helper.go(bench.addressForPhones() + "/");
            helper.read("This browser isn’t in any more: it was removed");
            helper.go(bench.addressForPhones() + "/trial/beet");
            helper.go(link);
            helper.read("This link isn't good any more, or wasn't copied whole. Ask for a new one.");
            assertEquals(List.of(), bench.defects());
        }
    }

    private static Set<String> codesOn(Browser browser) {
        try {
            return CameraCodes.onPicture(browser.driver().getScreenshotAs(OutputType.BYTES));
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void aLabelOpensItsTrayAlsoForAPhoneThatJoinsFirst(@TempDir Path trials) throws Exception {
        var folder = trial(trials);
        try (var bench = OpenBench.shared(trials);
                var host = Browser.open(1280, 900);
                var phone = Browser.open(WIDE, HIGH)) {
            bench.letIn(host, "Ada");
            readsWell(host, "trials-laptop");
            host.press("Beet");
            host.press("Make the sheets");
            host.read("Open sheets.pdf");
            readsWell(host, "trial-laptop");
            host.press("Say that it is sown");
            host.read("Count: now");
            var labels = CameraCodes.onPaper(Files.readAllBytes(folder.resolve("sheets.pdf")));
            assertEquals(6, labels.size(), labels.toString());
            var label = bench.addressForPhones() + "/trial/beet/tray/T04";
            assertTrue(labels.contains(label), labels.toString());

            phone.go(label);
            phone.read("The computer with the trials shows a code.");
            host.press("Bench");
            host.press("Phones and helpers");
            host.see(By.cssSelector("img.pairing"));
            var code = code(host);
            assertEquals(Set.of(bench.addressForPhones() + "/pair#" + code), host.until("no code to see", d -> {
                var seen = codesOn(host);
                return seen.isEmpty() ? null : seen;
            }));
            join(phone, code, "Ben");
            phone.until("not at the label's tray", d -> d.getCurrentUrl().equals(label) ? true : null);
            phone.read("T04");
            phone.go(label);
            phone.read("T04");
            // The same phone that reads a new code again doesn't use it up.
            phone.go(bench.addressForPhones() + "/pair#" + bench.code());
            phone.until("not at the trials", d -> d.getCurrentUrl().endsWith("/pair") ? null : true);
            phone.read("Beet");
            var now = bench.code();
            phone.go(bench.addressForPhones() + "/");
            assertEquals(now, bench.code());
            assertEquals(List.of(), bench.defects());
        }
    }

    @Test
    void codesThatAreTriedTooOftenAreNotLookedAt(@TempDir Path trials) throws Exception {
        trial(trials);
        try (var bench = OpenBench.shared(trials);
                var phone = Browser.open(WIDE, HIGH)) {
            phone.go(bench.addressForPhones() + "/pair");
            phone.see(By.name("code"));
            for (int i = 0; i < 10; i++) {
                assertEquals(
                        403,
                        asked(
                                phone,
                                "POST",
                                "/api/pair",
                                "{\"code\": \"ABCD-234%d\", \"name\": \"Eve\"}".formatted(i)));
            }
            join(phone, bench.code(), "Eve");
            phone.read("That was tried too often. Wait a minute, then try again.");
        }
    }
}
