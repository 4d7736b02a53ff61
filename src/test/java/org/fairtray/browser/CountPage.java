package org.fairtray.browser;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.fairtray.bench.BeetTrial;
import org.openqa.selenium.By;

/** The pages for counting as a grower uses them on a phone. */
final class CountPage {
    /** A small phone, held upright. */
    static final int WIDE = 360;

    static final int HIGH = 640;

    private static final String PLAN = BeetTrial.PLAN.replace("trial: Beet", "trial: %s\nquestion: %s") + """
            counting: {days: [0, 1, 2], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: through, kind: count, of: germinated, day: 2}
            """;

    /** A trial that is laid out, and sown today, so that day 0 is to be counted. */
    static void layOut(Path folder, String title, String question) {
        BeetTrial.layOut(folder, PLAN.formatted(quoted(title), quoted(question)));
    }

    private static String quoted(String text) {
        return "\"" + text.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
    }

    static void sown(Browser phone, OpenBench bench, Path folder) {
        phone.go(bench.address() + "/trial/" + folder.getFileName() + "/count");
        phone.press("Today");
        phone.read("6 of 6 trays left");
    }

    static void tap(Browser phone, String keys) {
        keys.chars().forEach(k -> phone.press(By.xpath("//div[@class='keys']/button[.='" + (char) k + "']")));
    }

    /** Counts the tray on the screen with one thumb. */
    static void count(Browser phone, String germinated, String through) {
        phone.press(By.id("figure-0"));
        tap(phone, germinated);
        phone.press(By.id("figure-1"));
        tap(phone, through);
        phone.press("Save & next");
    }

    /** The code of the tray on the screen, before the words where it stands. */
    static String shownTray(Browser phone) {
        var head = phone.see(By.cssSelector("h2.code")).getText();
        return head.substring(0, head.indexOf(' '));
    }

    static String readings(Path folder) throws IOException {
        return Files.readString(folder.resolve("readings.csv"));
    }

    private CountPage() {}

    /** An address of the trial in a folder. */
    static String at(OpenBench bench, Path folder, String rest) {
        return bench.address() + "/trial/" + folder.getFileName() + rest;
    }

    /** A small phone whose trial is sown today, so that day 0 is to be counted. */
    static Browser phone(OpenBench bench, Path folder) {
        var phone = Browser.open(WIDE, HIGH);
        bench.letIn(phone, "Ada");
        sown(phone, bench, folder);
        return phone;
    }

    static void onTheBench(Browser phone) {
        phone.read("All counts are on the bench");
    }

    /** The codes of the trays of the list, in their order. */
    static List<String> listed(Browser phone) {
        phone.see(By.cssSelector(".trays b"));
        return phone.driver().findElements(By.cssSelector(".trays b")).stream()
                .map(e -> e.getText())
                .toList();
    }

    /** Waits until a line of readings.csv begins so; the bench writes it each second. */
    static void waitForLine(Browser phone, Path folder, String begins) {
        phone.until("no " + begins, d -> {
            try {
                return readings(folder).lines().anyMatch(l -> l.startsWith(begins)) ? true : null;
            } catch (IOException e) {
                return null;
            }
        });
    }
}
