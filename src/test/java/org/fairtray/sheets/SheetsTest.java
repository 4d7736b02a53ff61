package org.fairtray.sheets;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.sheets.paper.Paper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What stands on the printed sheets, read off the finished files. */
class SheetsTest {
    private static final String COUNTING = "{days: [2, 4, 6], frames_per_tray: 1, seeds_per_frame: 50}";
    private static final List<String> BLIND = List.of(RackMap.NAME, CountingSheets.NAME, Labels.NAME);

    private static Map<String, Long> codes(String text) {
        return Arrays.stream(text.split("\\s+"))
                .filter(w -> w.matches("T\\d+"))
                .collect(Collectors.groupingBy(w -> w, Collectors.counting()));
    }

    private static Map<String, Long> eachOnce(int trays) {
        return IntStream.rangeClosed(1, trays).boxed().collect(Collectors.toMap(i -> "T" + i, i -> 1L));
    }

    @ParameterizedTest
    @EnumSource(Paper.class)
    void everyTrayStandsOnceOnTheMapOnEachDaysSheetsAndOnTheLabels(Paper paper) throws IOException {
        for (int stacks : List.of(2, 30)) {
            int positions = stacks == 2 ? 2 : 20;
            try (var printed = new Printed(Printed.rack(stacks, positions, COUNTING), Printed.on(paper))) {
                var expected = eachOnce(stacks * positions);
                assertEquals(expected, codes(printed.text(RackMap.NAME)));
                assertEquals(expected, codes(printed.text(Labels.NAME)));
                var counts = printed.part(CountingSheets.NAME);
                for (int day : List.of(2, 4, 6)) {
                    var text = IntStream.range(
                                    counts.first(),
                                    counts.first() + counts.pages().size())
                            .mapToObj(p -> printed.text(printed.rack, p, p))
                            .filter(t -> t.startsWith("Count on day " + day))
                            .collect(Collectors.joining("\n"));
                    assertEquals(expected, codes(text));
                }
            }
        }
    }

    @Test
    void noPageForTheOneWhoCountsSaysWhatATrayGot() throws IOException {
        try (var printed = new Printed(Printed.rack(4, 6, COUNTING), Printed.on(Paper.A4))) {
            for (var part : BLIND) {
                var text = printed.text(part);
                assertTrue(text.contains("T24"), part);
                Printed.LEVELS.forEach(level -> assertFalse(text.contains(level), part));
            }
        }
    }

    @Test
    void theKeyIsClosedByACoverAndSaysWhatEachTrayGot() throws IOException {
        try (var printed = new Printed(Printed.rack(4, 6, COUNTING), Printed.on(Paper.A4))) {
            var cover = printed.text(printed.key, 1, 1);
            assertTrue(cover.contains("Keep closed until counting is done."), cover);
            Printed.LEVELS.forEach(level -> assertFalse(cover.contains(level)));
            var table = printed.text(printed.key, 2, 2).lines().toList();
            for (int i = 0; i < 24; i++) {
                var line = "T%d stack %d, position %d %s"
                        .formatted(i + 1, i / 6 + 1, i % 6 + 1, Printed.LEVELS.get(i % 3));
                assertTrue(table.contains(line), line + " in " + table);
            }
            var levels = printed.text(printed.key, 3, printed.key.getNumberOfPages());
            assertTrue(levels.contains("mat xcoir: 8 × tray"), levels);
        }
    }

    @ParameterizedTest
    @EnumSource(Paper.class)
    void everyPageIsAsLargeAsItsPaper(Paper paper) throws IOException {
        // ISO 216, and 8.5 by 11 inches of 72 points.
        double width = paper == Paper.A4 ? 210 / 25.4 * 72 : 612;
        double height = paper == Paper.A4 ? 297 / 25.4 * 72 : 792;
        try (var printed = new Printed(Printed.rack(2, 2, COUNTING), Printed.on(paper))) {
            for (var file : List.of(printed.rack, printed.key)) {
                assertTrue(file.getNumberOfPages() >= 3);
                for (var page : file.getPages()) {
                    assertEquals(width, page.getMediaBox().getWidth(), 0.01);
                    assertEquals(height, page.getMediaBox().getHeight(), 0.01);
                }
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Paper.class)
    void theCameraCodeOfALabelOpensTheTraysPage(Paper paper) throws IOException {
        var printing = new Printing(paper, Optional.of("http://192.168.100.200:8080"));
        try (var printed = new Printed(Printed.rack(4, 10, COUNTING), printing)) {
            var sheet = Labels.Sheet.on(paper);
            int first = printed.part(Labels.NAME).first();
            for (int tray : List.of(1, 3, 24, 31, 40)) {
                int onSheet = (tray - 1) % sheet.labels();
                assertEquals(
                        Optional.of("http://192.168.100.200:8080/tray/T" + tray),
                        printed.seen(first + (tray - 1) / sheet.labels(), sheet.label(onSheet)));
            }
            assertEquals(Optional.empty(), printed.seen(first + 40 / sheet.labels(), sheet.label(40 % sheet.labels())));
        }
    }

    @Test
    void withoutAnAddressTheCameraCodeHoldsTheTraysCode() throws IOException {
        var files = Printed.read("""
                format: 1
                trial: Codes
                factors: [{name: mat, levels: [a, b]}]
                place: [{name: spot, count: 2}]
                counting: {days: [1], seeds_per_frame: 9}
                outcomes: [{name: through, kind: count, day: 1}]
                """, "tray,spot,mat\nü 1/2,1,a\n名,2,b\n");
        try (var printed = new Printed(files, Printed.on(Paper.A4))) {
            int page = printed.part(Labels.NAME).first();
            assertEquals(Optional.of("ü 1/2"), printed.seen(page, Labels.Sheet.A4.label(0)));
            assertEquals(Optional.of("名"), printed.seen(page, Labels.Sheet.A4.label(1)));
            var map = printed.text(RackMap.NAME);
            assertTrue(map.contains("□ stands for a letter that these sheets can’t show."), map);
            assertEquals(
                    "http://bench/tray/%C3%BC%201%2F2",
                    new Printing(Paper.A4, Optional.of("http://bench")).cameraCode("ü 1/2"));
        }
    }

    /** Whoever follows the sheet must not leave trays where the plan moves them, nor choose where frames lie. */
    @Test
    void whatIsToldForTheDaysIsWhatThePlanAsks() throws IOException {
        var files = Printed.read("""
                format: 1
                trial: Moves
                crop: {name: beet, thousand_seed_weight_g: 15}
                factors: [{name: mat, levels: [a, b]}]
                place: [{name: layer, count: 2}]
                counting: {days: [4], frames_per_tray: 2, seeds_per_frame: 50, tray_cm: [50, 25], frame_cm: [10, 10]}
                outcomes: [{name: through, kind: count, day: 4}]
                sowing: {grams_per_tray: 30}
                rotation: {level: layer, days: [1, 3]}
                """, "tray,layer,mat\nT1,1,a\nT2,2,b\n");
        try (var printed = new Printed(files, Printed.on(Paper.A4))) {
            var text = printed.text(Protocol.NAME).replaceAll("\\s+", " ");
            assertTrue(text.contains("On day 1, 3, before anything else: move every tray to its new layer"), text);
            assertFalse(text.contains("in its own place"), text);
            assertTrue(text.contains("Mark the counting frames in each tray where frames.csv says"), text);
            assertFalse(text.contains("at the same places in all trays"), text);
            assertTrue(text.contains("all portions alike: 30.00 g."), text);
        }
    }

    @Test
    void theSameTrialGivesTheSameBytesAndTheyHoldNoDate() {
        var files = Printed.rack(4, 6, COUNTING);
        var trial = files.trial();
        var layout = files.layout().orElseThrow();
        var once = new Sheets(trial, layout, Printed.on(Paper.A4)).files();
        var again = new Sheets(trial, layout, Printed.on(Paper.A4)).files();
        assertEquals(List.of("sheets.pdf", "key.pdf"), List.copyOf(once.keySet()));
        once.forEach((name, bytes) -> {
            assertArrayEquals(bytes, again.get(name), name);
            assertFalse(new String(bytes, StandardCharsets.ISO_8859_1).contains("Date"), name);
        });
    }

    @Test
    void aTrialTooLargeForPaperGetsOnePageThatSaysSo() throws IOException {
        var counting = "{days: [2, 4, 6], frames_per_tray: 1000, seeds_per_frame: 50}";
        try (var printed = new Printed(Printed.rack(3, 4, counting), Printed.on(Paper.A4))) {
            assertEquals(1, printed.rack.getNumberOfPages());
            assertTrue(printed.text(printed.rack, 1, 1).contains("36000 lines to count, more than the 30000"));
            assertEquals(1, printed.key.getNumberOfPages());
        }
    }

    @Test
    void theProtocolGoesDayByDay() throws IOException {
        try (var printed = new Printed(Printed.rack(2, 3, COUNTING), Printed.on(Paper.A4))) {
            var text = printed.text(Protocol.NAME).replaceAll("\\s+", " ");
            int at = 0;
            for (var step : List.of(
                    "Which mat lets most roots through?",
                    "Seed: beet, lot L 7.",
                    "The 50 seeds that are counted in a tray weigh about 0.80 g.",
                    "Day 0: sow",
                    "mat (xhemp, xcoir, xpad): for each tray, as the key says.",
                    "Every day",
                    "Day 2: count",
                    "sown, germinated, through.",
                    "Day 4: count",
                    "germinated, through, height_mm.",
                    "Today decides for: height_mm.",
                    "Day 6: count",
                    "Today decides for: through.",
                    "What counts as what",
                    "germinated: radicle 2 mm or longer.",
                    "Cautions",
                    "Your local food, workplace, chemical and electrical rules come before")) {
                int found = text.indexOf(step, at);
                assertTrue(found >= 0, step + " after letter " + at + " of " + text);
                at = found + step.length();
            }
        }
    }

    @Test
    void seedIsSoakedByTheLevelsLongestFirstAndWeightsGoOnWholeStacks() throws IOException {
        var files = Printed.read("""
                format: 1
                trial: Soaking and cover
                factors:
                  - {name: Pre-soak, unit: h, levels: [0, 6.5, 24]}
                  - {name: cover, unit: kg, levels: [0, 3], applied_to: stack}
                place: [{name: stack, count: 2}, {name: layer, count: 3}]
                counting: {days: [1], frames_per_tray: 2, seeds_per_frame: 50, counts: new}
                outcomes: [{name: through, kind: count, day: 1}]
                """, "tray,stack,layer,Pre-soak,cover\nA,1,1,0,3\nB,1,2,6.5,3\nC,2,1,24,0\n");
        try (var printed = new Printed(files, Printed.on(Paper.LETTER))) {
            var text = printed.text(Protocol.NAME).replaceAll("\\s+", " ");
            int longest = text.indexOf("24 hours before sowing: cover the seed for 24 h");
            int shorter = text.indexOf("6.5 hours before sowing");
            assertTrue(0 < longest && longest < shorter, text);
            assertFalse(text.contains("0 hours before"), text);
            assertTrue(text.contains("Weight: cover (0 kg, 3 kg) on each whole stack"), text);
            assertTrue(text.contains("Frames 1 to 2 of every tray."), text);
            assertTrue(printed.text(printed.key, 3, 3).contains("cover 3 kg: 1 × stack"));
        }
    }
}
