package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Area;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Costs;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Scale;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

class GoodFilesTest {
    private static final Path FOLDERS = Path.of("src/test/resources/good-files");

    @Test
    void readsEveryKeyOfAPlan() {
        var expected = new Trial(
                "Beet roots on three mats",
                Optional.of("Which of soaking, cover weight and mat changes how many roots get through by day 6?"),
                Optional.of(new Crop("beet", Optional.of("2026-03 A"), OptionalDouble.of(15), OptionalInt.of(2))),
                List.of(
                        new Factor("soak", Optional.of("h"), List.of("0", "0.10"), "tray"),
                        new Factor("cover", Optional.of("kg"), List.of("0", "3"), "stack"),
                        new Factor("light", Optional.empty(), List.of("no", "yes", "off"), "tray")),
                new Treatment(Map.of("soak", "0", "light", "off")),
                List.of(new Treatment(Map.of("soak", "0.10", "light", "yes"))),
                new Place(List.of(
                        new Place.Level("shelf", 2, Optional.empty()),
                        new Place.Level("stack", 3, Optional.empty()),
                        new Place.Level("position", 4, Optional.of("stack")))),
                Map.of(
                        "germinated", "radicle 2 mm or longer",
                        "through", "root seen from below",
                        "height_mm", "to the tip"),
                List.of(new Batch("jar", "soak", 2)),
                OptionalInt.of(2),
                new Counting(
                        List.of(0, 2, 6),
                        2,
                        50,
                        false,
                        Optional.of(new Area(50, 25)),
                        Optional.of(new Area(10, 10)),
                        1.5),
                List.of(
                        new Outcome.Count("through", "germinated", 6),
                        new Outcome.Count("germinated", "sown", 2),
                        new Outcome.Measure("height_mm", 6)),
                new AnalysisChoices(0.1, 3, Scale.LOGIT),
                new Expectations(
                        OptionalDouble.of(0.35),
                        OptionalDouble.of(0.15),
                        OptionalDouble.of(0.05),
                        Map.of("stack", 0.3, "tray", 0.0),
                        OptionalDouble.of(0.8)),
                Optional.of(new Costs(
                        Optional.of("EUR"),
                        OptionalDouble.of(0.9),
                        OptionalDouble.of(0.04),
                        OptionalDouble.of(15),
                        OptionalDouble.of(2))),
                OptionalDouble.of(30),
                Optional.of(new Rotation("position", List.of(1, 2, 4))),
                OptionalInt.of(3),
                List.of(
                        new Restriction(Restriction.Kind.APART, "cover", Optional.empty()),
                        new Restriction(Restriction.Kind.EVEN, "treatment", Optional.of("stack")),
                        new Restriction(Restriction.Kind.EDGES, "cover", Optional.empty())),
                Map.of("temperature_c", "21.50", "medium", "hemp mat"));
        assertEquals(expected, new TrialFolder(FOLDERS.resolve("every-key")).readPlan());
    }

    @Test
    void fillsInWhatAPlanLeavesOut() {
        var files = new TrialFolder(FOLDERS.resolve("plan-only")).read();
        var trial = files.trial();
        assertEquals(new Counting(List.of(1), 1, 1, true), trial.counting());
        assertEquals(AnalysisChoices.USUAL, trial.choices());
        assertEquals(Expectations.none(), trial.expectations());
        assertEquals(new Treatment(Map.of()), trial.control());
        assertEquals(Place.TRAY, trial.factor("mat").appliedTo());
        assertEquals(Optional.empty(), files.layout());
        assertEquals(Optional.empty(), files.layoutSha256());
        assertEquals(List.of(), files.readings());
        assertEquals(Seal.State.ABSENT, files.sealState());
    }

    @Test
    void understandsWhatASpreadsheetMakesOfTheFiles() {
        var files = new TrialFolder(FOLDERS.resolve("spreadsheet-habits")).read();
        assertEquals(
                List.of(
                        tray("T1", 1, "0", "hemp, fine"),
                        tray("T2", 2, "8", "-coir \"A\""),
                        tray("T3", 3, "0", "hemp, fine")),
                files.layout().orElseThrow().trays());
        assertEquals(
                List.of(
                        new Reading(
                                "T1", 2, 1, OptionalInt.of(48), Map.of("germinated", 3.0), Map.of("weather", "dry")),
                        new Reading(
                                "T1",
                                4,
                                1,
                                OptionalInt.of(48),
                                Map.of("germinated", 10.0, "height_mm", 12.5),
                                Map.of("note", "two\nlines; quoted \"so\"")),
                        new Reading("T2", 4, 1, OptionalInt.of(50), Map.of("height_mm", 1.5), Map.of("note", "=1+1"))),
                files.readings());
        assertEquals(List.of("note", "weather"), files.noteColumns());
        assertEquals(
                List.of(
                        "readings.csv is separated by semicolons; a comma in a number is read as its point",
                        "readings.csv has columns that the plan doesn't ask for; they are kept as notes: weather"),
                files.notices());
    }

    private static Tray tray(String code, int spot, String soak, String mat) {
        return new Tray(
                code, new Stand(List.of(spot)), Map.of(), new Treatment(Map.of("soak", soak, "=mat, odd", mat)));
    }

    @Test
    void readsFortyThousandReadingsQuickly() {
        int trays = 10_000;
        var plan =
                "{format: 1, trial: Many, factors: [{name: mat, levels: [a, b]}], place: [{name: spot, count: " + trays
                        + "}], counting: {days: [1, 2, 3, 4], seeds_per_frame: 50},"
                        + " outcomes: [{name: through, kind: count, day: 4}]}";
        var layout = new StringBuilder("tray,spot,mat\n");
        var readings = new StringBuilder("tray,day,sown,germinated,through,note\n");
        for (int i = 1; i <= trays; i++) {
            layout.append("T%d,%d,%s\n".formatted(i, i, i % 2 == 0 ? "a" : "b"));
            for (int day = 1; day <= 4; day++) {
                readings.append("T%d,%d,50,%d,%d,\n".formatted(i, day, 10 * day, 9 * day));
            }
        }
        var contents = Map.of("plan.yaml", bytes(plan), "layout.csv", bytes(layout), "readings.csv", bytes(readings));
        var clock = ManagementFactory.getThreadMXBean();
        long start = clock.getCurrentThreadCpuTime();
        assertEquals(40_000, TrialFiles.of(contents).readings().size());
        double seconds = (clock.getCurrentThreadCpuTime() - start) / 1e9;
        // About 1.3 s of a core when nothing is compiled yet, 0.1 s after (two shared cores, Java 17).
        assertTrue(seconds < 5, () -> seconds + " s");
    }

    private static byte[] bytes(CharSequence text) {
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }
}
