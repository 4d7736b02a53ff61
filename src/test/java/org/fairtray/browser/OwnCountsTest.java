package org.fairtray.browser;

import static org.fairtray.browser.CountPage.at;
import static org.fairtray.browser.CountPage.count;
import static org.fairtray.browser.CountPage.layOut;
import static org.fairtray.browser.CountPage.listed;
import static org.fairtray.browser.CountPage.onTheBench;
import static org.fairtray.browser.CountPage.phone;
import static org.fairtray.browser.CountPage.shownTray;
import static org.fairtray.browser.CountPage.tap;
import static org.fairtray.browser.CountPage.waitForLine;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;

/** Counts of one frame that follow one another on one phone never differ with one another. */
class OwnCountsTest {
    @TempDir
    Path folder;

    /** Leaves a count that waits, and on the same tray a newer one that is typed but not saved. */
    @Test
    void itsOwnCountIsNotInItsWayWhenItIsAnsweredMeanwhile() throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            phone.press("Count T");
            var tray = shownTray(phone);
            phone.offline(true);
            count(phone, "30", "12");
            phone.read("1 count waits");
            phone.press("Back");
            assertEquals(tray, shownTray(phone));
            phone.press(By.id("figure-0"));
            tap(phone, "33");
            phone.offline(false);
            onTheBench(phone);
            phone.press("Save & next");
            onTheBench(phone);
            waitForLine(phone, folder, tray + ",0,33,12,");
            phone.go(at(bench, folder, "/count"));
            phone.read("5 of 6 trays left");
            assertFalse(phone.text().contains("two figures"), phone.text());
        }
    }

    /** Keeps a count of a frame while the answer to the one before it is held back, or was taken but not told yet. */
    private static final String IN_BETWEEN = """
            const done = arguments[arguments.length - 1];
            (async () => {
              const {follow, keep, outbox} = await import('/assets/count/sender.js');
              const ask = window.fetch;
              let release;
              const held = new Promise(go => { release = go; });
              let arrived;
              const answered = new Promise(go => { arrived = go; });
              window.fetch = async (path, options) => {
                const answer = await ask(path, options);
                if (options?.method !== 'POST' || window.fetch === ask) return answer;
                window.fetch = ask;
                const body = await answer.text();
                arrived();
                await held;
                return new Response(body, {status: answer.status});
              };
              const body = (germinated, before) => ({tray: arguments[1], day: 0, frame: 1, seen: 0,
                values: {germinated}, view: {germinated: before}, saidAt: new Date().toISOString()});
              await keep(arguments[0], [body('30', null)]);
              await answered;
              let told = null;
              const second = new Promise(go => { told = go; });
              if (arguments[2]) {
                let once = true;
                await follow(() => {
                  if (once && outbox.entries.length === 0) {
                    once = false;
                    told(keep(arguments[0], [body('31', '30')]));
                  }
                });
                release();
              } else {
                told(keep(arguments[0], [body('31', '30')]));
                release();
              }
              await second;
              while (outbox.entries.length > 0) await new Promise(go => setTimeout(go, 20));
              done('sent');
            })().catch(error => done(String(error)));
            """;

    private void ownCountsInBetween(boolean told) throws Exception {
        layOut(folder, "Beet", "Why?");
        try (var bench = new OpenBench(folder);
                var phone = phone(bench, folder)) {
            var tray = listed(phone).get(0);
            var said = phone.driver()
                    .executeAsyncScript(IN_BETWEEN, folder.getFileName().toString(), tray, told);
            assertEquals("sent", said);
            phone.go(at(bench, folder, "/count"));
            waitForLine(phone, folder, tray + ",0,31,");
            assertFalse(phone.text().contains("two figures"), phone.text());
        }
    }

    @Test
    void aCountKeptWhileTheOneBeforeIsAnsweredBuildsOnIt() throws Exception {
        ownCountsInBetween(false);
    }

    @Test
    void aCountKeptJustAfterTheAnswerBuildsOnIt() throws Exception {
        ownCountsInBetween(true);
    }
}
