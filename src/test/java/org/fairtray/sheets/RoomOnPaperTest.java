package org.fairtray.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.fairtray.files.TrialFiles;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Mark;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.sheets.pdf.PdfTypeface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Nothing runs off the paper and no words lie on others, with few trays, six hundred, and the longest names. */
class RoomOnPaperTest {
    private static final double POINT = 25.4 / 72;
    private static final String LONG =
            "Wärmegewächshaustischreihenabteilungsbezeichnung mit 名前 ".repeat(8).strip();
    private static final PdfTypeface FACE = new PdfTypeface();

    private static TrialFiles longNames() {
        var plan = new StringBuilder("format: 1\ntrial: \"%1$s\"\nquestion: \"%1$s\"\nfactors:\n".formatted(LONG));
        var head = new StringBuilder("tray,\"shelf %1$s\",\"stack %1$s\",\"spot %1$s\",\"jar %1$s\"".formatted(LONG));
        for (int i = 1; i <= 7; i++) {
            plan.append("  - {name: \"%d %s\", levels: [\"a %s\", \"b %s\"]}\n".formatted(i, LONG, LONG, LONG));
            head.append(",\"%d %s\"".formatted(i, LONG));
        }
        plan.append("""
                place:
                  - {name: "shelf %1$s", count: 2}
                  - {name: "stack %1$s", count: 9}
                  - {name: "spot %1$s", count: 40}
                definitions: {through: "%1$s"}
                batches: [{name: "jar %1$s", of: "1 %1$s", count: 2}]
                counting: {days: [0, 3650], frames_per_tray: 40, seeds_per_frame: 50, counts: new, tray_cm: [100, 50],
                  frame_cm: [1.5, 1]}
                rotation: {level: "spot %1$s", days: [1, 2]}
                outcomes:
                  - {name: through, kind: count, of: germinated, day: 3650}
                  - {name: "height %1$s", kind: measure, day: 0}
                """.formatted(LONG));
        var layout = new StringBuilder(head).append('\n');
        for (int i = 1; i <= 40; i++) {
            layout.append("%s %d,%d,%d,%d,%d".formatted(LONG, i, i % 2 + 1, i % 9 + 1, i, i % 2 + 1));
            layout.append(",\"a %s\"".formatted(LONG).repeat(7)).append('\n');
        }
        return Printed.read(plan.toString(), layout.toString());
    }

    private static Stream<TrialFiles> trials() {
        var counting = "{days: [2, 4], frames_per_tray: %d, seeds_per_frame: 50, tray_cm: [30, 60],"
                + " frame_cm: [8, 8], margin_cm: 2}\nrotation: {level: position, days: [1, 3]}";
        return Stream.of(
                Printed.rack(2, 2, counting.formatted(1).replace("4]", "4, 6]")),
                Printed.rack(30, 20, counting.formatted(3).replace("4]", "4, 6]")),
                longNames());
    }

    @ParameterizedTest
    @EnumSource(Paper.class)
    void wordsStayOnThePaperAndApart(Paper paper) {
        trials().forEach(files -> {
            var sheets =
                    new Sheets(files.trial(), files.layout().orElseThrow(), Printed.drawn(files, 7), Printed.on(paper));
            assertEquals(
                    List.of(
                            RackMap.NAME,
                            Protocol.NAME,
                            FrameSheets.NAME,
                            MoveSheets.NAME,
                            CountingSheets.NAME,
                            Labels.NAME),
                    sheets.parts().stream().map(Sheets.Part::name).toList());
            var pages = new ArrayList<Page>(sheets.key());
            sheets.parts().forEach(p -> pages.addAll(p.pages()));
            assertTrue(pages.size() > 5);
            pages.forEach(RoomOnPaperTest::checkPage);
        });
    }

    @Test
    void placesThatTraysMoveToAreReadHoweverLongTheirName() {
        var files = longNames();
        var sheets = new Sheets(
                files.trial(), files.layout().orElseThrow(), Printed.drawn(files, 7), Printed.on(Paper.LETTER));
        var places = sheets.parts().stream()
                .filter(p -> p.name().equals(MoveSheets.NAME))
                .flatMap(p -> p.pages().stream())
                .flatMap(p -> p.marks().stream())
                .filter(Mark.Words.class::isInstance)
                .map(Mark.Words.class::cast)
                .filter(w -> w.text().startsWith("spot W"))
                .toList();
        assertFalse(places.isEmpty());
        places.forEach(w -> assertTrue(w.size() >= 8 && w.text().matches(".*… \\d+"), w::toString));
    }

    private static void checkPage(Page page) {
        var words = new ArrayList<Mark.Words>();
        var paper = new Box(3, 2, page.paper().width() - 6, page.paper().height() - 4);
        for (var mark : page.marks()) {
            if (mark instanceof Mark.Words written) {
                words.add(written);
                assertTrue(lies(around(written), paper), () -> written + " off the paper");
            } else if (mark instanceof Mark.Outline outline) {
                assertTrue(lies(outline.box(), paper), () -> outline + " off the paper");
            } else if (mark instanceof Mark.CameraCode code) {
                assertTrue(lies(code.box(), paper), () -> code + " off the paper");
            }
        }
        for (int i = 0; i < words.size(); i++) {
            var one = around(words.get(i));
            for (var other : words.subList(i + 1, words.size())) {
                if (overlap(one, around(other))) {
                    throw new AssertionError(words.get(i) + " lies on " + other);
                }
            }
        }
    }

    /** From the top of capital letters to their foot. */
    private static Box around(Mark.Words words) {
        double height = words.size() * 0.72 * POINT;
        double width = FACE.width(words.text()) * words.size() * POINT;
        return new Box(words.left(), words.baseline() - height, width, height);
    }

    private static boolean lies(Box inner, Box outer) {
        return inner.left() >= outer.left()
                && inner.top() >= outer.top()
                && inner.right() <= outer.right()
                && inner.bottom() <= outer.bottom();
    }

    private static boolean overlap(Box one, Box other) {
        double touching = 0.05;
        return one.left() + touching < other.right()
                && other.left() + touching < one.right()
                && one.top() + touching < other.bottom()
                && other.top() + touching < one.bottom();
    }

    @Test
    void codesOnTheMapAreReadFromAMetreAway() {
        var files = Printed.rack(30, 20, "{days: [4, 6], seeds_per_frame: 50}");
        var sheets =
                new Sheets(files.trial(), files.layout().orElseThrow(), files.handling(), Printed.on(Paper.LETTER));
        var codes = sheets.parts().get(0).pages().stream()
                .flatMap(p -> p.marks().stream())
                .filter(Mark.Words.class::isInstance)
                .map(Mark.Words.class::cast)
                .filter(w -> w.text().matches("T\\d+"))
                .toList();
        assertEquals(600, codes.size());
        // Capitals of 20 points are 5 mm high.
        assertEquals(List.of(), codes.stream().filter(w -> w.size() < 20).toList());
    }
}
