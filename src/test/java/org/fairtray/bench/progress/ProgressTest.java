package org.fairtray.bench.progress;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.fairtray.Trials;
import org.fairtray.report.charts.Curves;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.junit.jupiter.api.Test;

class ProgressTest {
    /** Two mats on four trays: T1 hemp, T2 coir, T3 hemp, T4 coir; 50 seeds in a frame. */
    private static Trials mats() {
        var mat = Trials.factor("mat", "tray", "hemp", "coir");
        return Trials.of(Trials.place("spot 4"), List.of(mat), Trials.THROUGH, Trials.HEIGHT)
                .laid(at -> List.of(at.get(0) % 2 == 1 ? "hemp" : "coir"));
    }

    private static Progress of(Trials trials, Reading... readings) {
        return Progress.of(trials.trial(), trials.layout(), List.of(readings));
    }

    private static Reading through(String tray, int day, int frame, double value) {
        return Trials.reading(tray, day, frame, Map.of("through", value));
    }

    private static Reading height(String tray, int frame, double value) {
        return Trials.reading(tray, 3, frame, Map.of("height_mm", value));
    }

    private static Progress.Column column(Progress progress, String name) {
        return progress.columns().stream()
                .filter(c -> c.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static Map<Integer, Double> rates(Progress progress, String column, int tray) {
        return column(progress, column).table().get(tray - 1).rates();
    }

    private static List<Progress.Mean> means(List<Progress.Mean> all, String column) {
        return all.stream().filter(m -> m.column().equals(column)).toList();
    }

    @Test
    void framesOfADayAreAddedUpAndOneThatWasNotReadIsLeftOutOfTheSeedsToo() {
        var progress =
                of(mats().counted(2, true), through("T1", 1, 1, 10), through("T1", 1, 2, 20), through("T1", 2, 2, 25));
        assertEquals(Map.of(1, 0.3, 2, 0.5), rates(progress, "through", 1));
        assertEquals(Map.of(), rates(progress, "through", 2));
    }

    @Test
    void countsOfWhatIsNewAreAddedUpFrameByFrame() {
        var progress = of(
                mats().counted(2, false),
                through("T1", 2, 1, 15),
                through("T1", 1, 1, 5),
                through("T1", 1, 2, 15),
                through("T1", 2, 2, 5));
        assertEquals(Map.of(1, 0.2, 2, 0.4), rates(progress, "through", 1));
    }

    @Test
    void seedsThatTheReadingGivesGoBeforeThoseOfThePlan() {
        var sown = new Reading("T1", 1, 1, OptionalInt.of(40), Map.of("through", 10.0), Map.of());
        assertEquals(Map.of(1, 0.25), rates(of(mats(), sown), "through", 1));
    }

    @Test
    void aMeasureIsTheMeanOfItsFramesEvenWhereCountsAreOfWhatIsNew() {
        var progress = of(mats().counted(2, false), height("T2", 1, 20), height("T2", 2, 23));
        assertEquals(Map.of(3, 21.5), rates(progress, "height_mm", 2));
        assertEquals("measure", column(progress, "height_mm").kind());
        assertEquals("count", column(progress, "through").kind());
    }

    @Test
    void aTreatmentIsTheMeanOfItsTraysHoweverManySeedsTheyHold() {
        var small = new Reading("T3", 1, 1, OptionalInt.of(10), Map.of("through", 5.0), Map.of());
        var progress = of(mats(), through("T1", 1, 1, 10), small, through("T1", 2, 1, 30), through("T2", 1, 1, 40));
        assertEquals(
                List.of(
                        new Progress.Mean("through", "mat hemp", 2, Map.of(1, 0.35, 2, 0.6)),
                        new Progress.Mean("through", "mat coir", 1, Map.of(1, 0.8))),
                means(progress.treatments(), "through"));
    }

    @Test
    void picturesOfTraysSayNothingOfTreatments() {
        var progress = of(mats(), through("T1", 3, 1, 10), through("T2", 3, 1, 40));
        var trays = progress.trayChart("through", 1);
        assertTrue(trays.contains("T1: 20 % on day 3; T2: 80 % on day 3."), trays);
        assertFalse(Pattern.compile("hemp|coir|mat").matcher(words(trays)).find(), trays);
        assertTrue(progress.treatmentChart("through").contains("mat hemp: 20 % on day 3; mat coir: 80 % on day 3."));
    }

    /** Titles, descriptions and labels, without the names of SVG's own elements. */
    private static String words(String svg) {
        return svg.replaceAll("<[^>]*>", " ");
    }

    @Test
    void withoutReadingsPicturesAreEmpty() {
        var progress = of(mats());
        assertTrue(progress.trayChart("through", 1).contains("Nothing was counted yet."));
        assertTrue(progress.trayChart("height_mm", 1).contains("Nothing was counted yet."));
        assertTrue(progress.treatmentChart("through").contains("Nothing was counted yet."));
        assertEquals(0, means(progress.treatments(), "through").get(0).trays());
    }

    @Test
    void oneDayIsEnoughForAPicture() {
        for (int day : List.of(0, 7)) {
            var trials = mats().counted(new Counting(List.of(day), 1, 50, true));
            var progress = of(trials, through("T4", day, 1, 50));
            assertTrue(progress.trayChart("through", 1).contains("T4: 100 % on day " + day + "."));
        }
    }

    @Test
    void sixHundredTraysAreWalkedThroughInPicturesThatCanBeTold() {
        var mat = Trials.factor("mat", "tray", "hemp", "coir");
        var trials = Trials.of(Trials.place("shelf 6", "spot 100"), List.of(mat), Trials.THROUGH)
                .laid(at -> List.of(at.get(1) % 2 == 1 ? "hemp" : "coir"));
        var backwards = new ArrayList<>(trials.layout().trays());
        Collections.reverse(backwards);
        var read = trials.with(new Layout(backwards)).readAll(25);
        var progress = Progress.of(read.trial(), read.layout(), read.readings());
        var column = column(progress, "through");
        assertEquals(
                IntStream.rangeClosed(1, 600).mapToObj(i -> "T" + i).toList(),
                column.table().stream().map(Progress.Row::tray).toList());
        assertEquals((int) Math.ceil(600.0 / Curves.MOST_LINES), column.trayCharts());
        assertTrue(progress.trayChart("through", column.trayCharts()).contains("T600: 50 % on day 3."));
        assertEquals(
                "picture 0 of through: there are " + column.trayCharts(),
                assertThrows(IllegalArgumentException.class, () -> progress.trayChart("through", 0))
                        .getMessage());
    }

    @Test
    void moreTreatmentsThanLinesAreDrawnByTheFirstFactorAndKeptInTheTable() {
        var soak = Trials.factor("soak", "tray", "0", "4", "8");
        var mat = Trials.factor("mat", "tray", "hemp", "coir", "pad", "felt", "none", "jute");
        var trials = Trials.of(Trials.place("spot 18"), List.of(soak, mat), Trials.THROUGH)
                .laid(at -> List.of(
                        soak.levels().get((at.get(0) - 1) / 6), mat.levels().get((at.get(0) - 1) % 6)));
        var progress = of(trials, through("T1", 3, 1, 10), through("T2", 3, 1, 40), through("T18", 3, 1, 50));
        assertEquals(18, means(progress.treatments(), "through").size());
        assertEquals(
                List.of(
                        new Progress.Mean("through", "soak 0", 2, Map.of(3, 0.5)),
                        new Progress.Mean("through", "soak 4", 0, Map.of()),
                        new Progress.Mean("through", "soak 8", 1, Map.of(3, 1.0))),
                progress.drawn());
        assertTrue(progress.treatmentChart("through").contains("soak 0: 50 % on day 3; soak 8: 100 % on day 3."));
    }
}
