package org.fairtray.sheets;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.sheets.paper.Mark;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.trial.Area;
import org.fairtray.trial.FrameSpot;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Stand;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What stands on the printed sheets, read off the finished files. */
class SheetsTest {
    private static final String COUNTING = "{days: [2, 4, 6], frames_per_tray: 1, seeds_per_frame: 50}";
    private static final String MOVING = "{days: [2, 4, 6], frames_per_tray: 3, seeds_per_frame: 50, tray_cm: [50, 25],"
            + " frame_cm: [10, 5], margin_cm: 2}\nrotation: {level: position, days: [1, 4]}";
    private static final List<String> BLIND =
            List.of(RackMap.NAME, FrameSheets.NAME, MoveSheets.NAME, CountingSheets.NAME, Labels.NAME);

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
        var files = Printed.rack(4, 6, MOVING);
        try (var printed = new Printed(files, Printed.drawn(files, 3), Printed.on(Paper.A4))) {
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
        try (var printed = new Printed(files, Printed.drawn(files, 1), Printed.on(Paper.A4))) {
            var text = printed.text(Protocol.NAME).replaceAll("\\s+", " ");
            assertTrue(text.contains("Day 3: move Before anything else: carry the trays to their new layer"), text);
            assertTrue(text.contains("as the sheets “Move on day 3” say."), text);
            assertFalse(text.contains("in its own place"), text);
            assertTrue(
                    text.contains("Mark the counting frames in each tray as the sheets “Where the frames lie” say."),
                    text);
            assertFalse(text.contains("at the same places in all trays"), text);
            assertTrue(text.contains("all portions alike: 30.00 g."), text);
        }
    }

    @Test
    void theSameTrialGivesTheSameBytesAndTheyHoldNoDate() {
        var files = Printed.rack(4, 6, COUNTING);
        var trial = files.trial();
        var layout = files.layout().orElseThrow();
        var once = new Sheets(trial, layout, Handling.NONE, Printed.on(Paper.A4)).files();
        var again = new Sheets(trial, layout, Handling.NONE, Printed.on(Paper.A4)).files();
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

    @Test
    void framesLieWhereTheirListSays() throws IOException {
        var files = Printed.rack(2, 3, MOVING);
        var handling = Printed.drawn(files, 3);
        try (var printed = new Printed(files, handling, Printed.on(Paper.A4))) {
            var numbers = Arrays.stream(printed.text(FrameSheets.NAME).split("\\s+"))
                    .collect(Collectors.groupingBy(w -> w, Collectors.counting()));
            handling.frames().forEach(f -> {
                assertTrue(numbers.containsKey(Area.cm(f.fromLeft())), f::toString);
                assertTrue(numbers.containsKey(Area.cm(f.fromFront())), f::toString);
            });
            assertEquals(eachOnce(6), codes(printed.text(FrameSheets.NAME)));
        }
        try (var printed = new Printed(files, Handling.NONE, Printed.on(Paper.A4))) {
            var text = printed.text(Protocol.NAME).replaceAll("\\s+", " ");
            assertTrue(text.contains("the folder has no frames.csv, which would say it."), text);
            assertTrue(text.contains("The folder has no rotation.csv, which would say where"), text);
        }
    }

    @Test
    void sketchesShowFramesToScaleFromTheFront() {
        var files = Printed.rack(1, 3, MOVING.replace("frames_per_tray: 3", "frames_per_tray: 1"));
        var spots = IntStream.rangeClosed(1, 3)
                .mapToObj(i -> new FrameSpot("T" + i, 1, 10 * i, 5 * i - 3.0))
                .toList();
        var sheets = new Sheets(
                files.trial(), files.layout().orElseThrow(), new Handling(spots, List.of()), Printed.on(Paper.A4));
        var part = sheets.parts().stream()
                .filter(p -> p.name().equals(FrameSheets.NAME))
                .findFirst()
                .orElseThrow();
        var boxes = part.pages().get(0).marks().stream()
                .filter(Mark.Outline.class::isInstance)
                .map(m -> ((Mark.Outline) m).box())
                .toList();
        assertEquals(6, boxes.size());
        for (int i = 0; i < 3; i++) {
            var tray = boxes.get(2 * i);
            var frame = boxes.get(2 * i + 1);
            double scale = tray.width() / 50;
            assertEquals(25 * scale, tray.height(), 1e-9);
            assertEquals(10 * (i + 1) * scale, frame.left() - tray.left(), 1e-9);
            assertEquals((5 * (i + 1) - 3) * scale, tray.bottom() - frame.bottom(), 1e-9);
        }
    }

    @Test
    void aCountingSheetWalksTheRackAsItStandsThatDay() throws IOException {
        var files = Printed.rack(2, 4, MOVING);
        var handling = Printed.drawn(files, 3);
        try (var printed = new Printed(files, handling, Printed.on(Paper.A4))) {
            var counts = printed.part(CountingSheets.NAME);
            var trays = files.layout().orElseThrow().trays();
            var seen = new ArrayList<String>();
            for (int day : List.of(2, 4, 6)) {
                var expected = handling.on(day, trays).stream()
                        .sorted(Comparator.comparing(t -> t.stand().at(), Stand.WALK))
                        .map(t -> t.code() + " stack " + t.stand().at().get(0) + ", position "
                                + t.stand().at().get(1))
                        .toList();
                var text = IntStream.range(
                                counts.first(), counts.first() + counts.pages().size())
                        .mapToObj(p -> printed.text(printed.rack, p, p))
                        .filter(t -> t.startsWith("Count on day " + day))
                        .collect(Collectors.joining("\n"));
                var found = text.lines()
                        .map(String::strip)
                        .filter(l -> l.matches("T\\d+ stack .*"))
                        .map(l -> l.replaceAll("( position \\d+).*", "$1"))
                        .toList();
                assertEquals(expected, found);
                seen.add(String.join(";", found));
            }
            assertFalse(seen.get(0).equals(seen.get(1)));
            assertEquals(seen.get(1), seen.get(2));
            var moves = printed.text(MoveSheets.NAME);
            assertTrue(moves.contains("Move on day 1") && moves.contains("Move on day 4"), moves);
        }
    }
}
