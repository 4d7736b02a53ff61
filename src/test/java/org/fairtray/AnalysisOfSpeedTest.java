package org.fairtray;

import static org.fairtray.Edges.SOAK;
import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.fairtray.Trials.SEEDS;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.THROUGH_OF_GERMINATED;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.fairtray.Trials.reading;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.analysis.speed.Courses;
import org.fairtray.analysis.speed.Hazards;
import org.fairtray.analysis.speed.TimesToHalf;
import org.fairtray.design.Structure;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Speed;
import org.fairtray.statistics.Tail;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;

/** How fast: laws, and readings at the edges of what can be analysed. */
class AnalysisOfSpeedTest {
    private static final Trials TWELVE_SOAKED =
            Trials.of(place("spot 12"), List.of(SOAK), THROUGH).drawn(1);

    /** Every tray read on days 1 to 3, cumulative. */
    private static Trials read(Trials trials, Function<Tray, double[]> counts) {
        var readings = new ArrayList<Reading>();
        for (var tray : trials.layout().trays()) {
            double[] byDay = counts.apply(tray);
            for (int i = 0; i < byDay.length; i++) {
                readings.add(reading(tray.code(), i + 1, 1, Map.of("through", byDay[i])));
            }
        }
        return trials.with(readings);
    }

    /** The same number in the end, but with soaking sooner; trays differ a little. */
    private static Trials sooner(Trials trials) {
        var numbers = trials.numbers();
        return read(trials, t -> {
            int more = numbers.get(t.code()) % 4;
            return t.treatment().level("soak").equals("8")
                    ? new double[] {18 + more, 34 - more, 40}
                    : new double[] {3 + more, 20 + more, 40};
        });
    }

    private static Findings.OutcomeFindings outcome(Trials trials) {
        return Sound.findings(trials).outcomes().get(0);
    }

    private static Speed speed(Trials trials) {
        return outcome(trials).speed();
    }

    @Test
    void soonerButNotMoreIsSaidAsBoth() {
        var outcome = outcome(sooner(TWELVE_SOAKED));
        var verdict = outcome.speed().verdicts().get(0);
        assertEquals("changed", verdict.verdict());
        assertTrue(
                verdict.sentence().startsWith("Soak made those that came out do so earlier: mean time 1."),
                verdict::sentence);
        String both = outcome.verdicts().get(0).sentence();
        assertTrue(both.startsWith("Soak made no worthwhile change to how many were through"), both);
        assertTrue(both.contains(" How fast: those that came out did so 0.7 days earlier with "), both);
    }

    /**
     * (0.5 n1 + 1.5 n2 + 2.5 n3) / N, by hand. Trays treated alike gave the same, so what is left to hold the difference
     * against is what the seeds' own times give: the average of their variance over N.
     */
    @Test
    void theMeanTimeTakesSeedsHalfWayBetweenReadings() {
        var trials = read(
                TWELVE_SOAKED,
                t -> t.treatment().level("soak").equals("8") ? new double[] {10, 30, 40} : new double[] {4, 10, 20});
        var effect = (Effect.OnMean) speed(trials).effects().get(0);
        SUMMED.assertClose((5 + 30 + 25) / 40.0, effect.mean());
        SUMMED.assertClose((2 + 9 + 25) / 20.0, effect.againstMean());
        double seeds = (20 / 39.0 / 40 + 12.2 / 19 / 20) / 2;
        double half = Tail.tQuantile(0.975, 10) * Math.sqrt(seeds * 2 / 6);
        SUMMED.assertClose(-0.3 - half, effect.low());
        SUMMED.assertClose(-0.3 + half, effect.high());
    }

    @Test
    void theOrderOfTraysDoesNotMatter() {
        var trials = sooner(TWELVE_SOAKED);
        var turned = new ArrayList<>(trials.layout().trays());
        Collections.reverse(turned);
        var one = speed(trials);
        var other = speed(trials.with(new Layout(turned)));
        ITERATED.assertClose(one.tests().get(0).p(), other.tests().get(0).p());
        ITERATED.assertClose(one.hazard().logLikelihood(), other.hazard().logLikelihood());
        ITERATED.assertClose(
                one.curves().get(0).t50Days(), other.curves().get(0).t50Days());
        ITERATED.assertClose(one.curves().get(0).low(), other.curves().get(0).low());
        assertEquals(one.indices(), other.indices());
    }

    @Test
    void aFactorOfStacksIsTestedWithTheStacks() {
        var trials = Trials.of(place("stack 6", "spot 4"), List.of(factor("soak", "stack", "0", "8")), THROUGH)
                .drawn(1);
        var test = speed(sooner(trials)).tests().get(0);
        assertEquals("stack", test.stratum());
        assertEquals(4.0, test.denominatorDf());
    }

    @Test
    void withoutAnyThereIsNoSpeed() {
        assertNull(speed(read(TWELVE_SOAKED, t -> new double[] {0, 0, 0})));
    }

    @Test
    void readOnOneDayThereIsNoSpeed() {
        var outcome = outcome(TWELVE_SOAKED.readAll(20));
        assertNull(outcome.speed());
        assertTrue(!outcome.verdicts().get(0).sentence().contains("How fast"));
    }

    @Test
    void allOnTheFirstDayLeavesNothingToTell() {
        var speed = speed(read(TWELVE_SOAKED, t -> new double[] {SEEDS, SEEDS, SEEDS}));
        assertNull(speed.hazard());
        assertEquals("cannot tell", speed.verdicts().get(0).verdict());
        assertNull(speed.curves().get(0).t50Days());
        assertNull(speed.curves().get(0).stepT50Low());
        assertEquals(1, speed.curves().get(0).stepT50High());
    }

    @Test
    void aTreatmentWithoutAnyHasNoHazardAndNoSpeed() {
        var speed = speed(read(
                TWELVE_SOAKED,
                t -> t.treatment().level("soak").equals("8") ? new double[] {0, 0, 0} : new double[] {5, 20, 30}));
        assertNull(speed.hazard());
        assertTrue(speed.notes().get(0).startsWith("There is no hazard model"), speed.notes()::toString);
        assertTrue(speed.notes().get(1).contains("leave them out"), speed.notes()::toString);
        assertEquals("cannot tell", speed.verdicts().get(0).verdict());
        var none = speed.curves().stream()
                .filter(c -> c.treatment().get("soak").equals("8"))
                .findFirst()
                .orElseThrow();
        assertEquals("None came out.", none.note());
        assertNull(none.stepT50High());
    }

    @Test
    void oneTrayTellsNothing() {
        String first = TWELVE_SOAKED.layout().trays().get(0).code();
        var speed = speed(sooner(TWELVE_SOAKED.keeping(t -> t.code().equals(first))));
        assertEquals("cannot tell", speed.verdicts().get(0).verdict());
        assertNull(speed.curves().get(0).low());
        assertNotNull(speed.curves().get(0).t50Days());
    }

    @Test
    void aDayOnWhichNothingHappenedIsLeftOut() {
        var speed = speed(read(TWELVE_SOAKED, t -> new double[] {0, 10, 30}));
        assertEquals(List.of(1), speed.hazard().daysLeftOut());
        assertEquals(
                List.of("day=2", "day=3", "soak=8"),
                speed.hazard().coefficients().stream().map(c -> c.name()).toList());
    }

    @Test
    void aSkippedReadingMakesOneLongerInterval() {
        var trials = sooner(TWELVE_SOAKED);
        String first = trials.layout().trays().get(0).code();
        var speed = speed(trials.with(trials.readings().stream()
                .filter(r -> !(r.tray().equals(first) && r.day() == 2))
                .toList()));
        assertTrue(speed.hazard().coefficients().stream().anyMatch(c -> c.name().equals("day=2-3")));
        assertTrue(speed.notes().stream().anyMatch(n -> n.startsWith("Some trays were not read")));
    }

    /** A frame that was not read on day 2 would make the tray's sum fall; day 2 then counts as not read. */
    @Test
    void aMissingFrameIsAMissingDay() {
        var trials = TWELVE_SOAKED.counted(2, true);
        var readings = new ArrayList<Reading>();
        String first = trials.layout().trays().get(0).code();
        for (var tray : trials.layout().trays()) {
            for (int day = 1; day <= 3; day++) {
                readings.add(reading(tray.code(), day, 1, Map.of("through", 10.0 * day)));
                if (day != 2 || !tray.code().equals(first)) {
                    readings.add(reading(tray.code(), day, 2, Map.of("through", 12.0 * day)));
                }
            }
        }
        var speed = speed(trials.with(readings));
        assertTrue(speed.hazard().coefficients().stream().anyMatch(c -> c.name().equals("day=2-3")));
        assertEquals(
                1,
                speed.hazard().coefficients().stream()
                        .filter(c -> c.name().equals("day=2"))
                        .count());
    }

    @Test
    void newCountsTellTheSameAsCumulativeOnes() {
        var trials = sooner(TWELVE_SOAKED);
        var before = new HashMap<String, Double>();
        var news = trials.readings().stream()
                .map(r -> {
                    double all = r.values().get("through");
                    double last = before.getOrDefault(r.tray(), 0.0);
                    before.put(r.tray(), all);
                    return reading(r.tray(), r.day(), 1, Map.of("through", all - last));
                })
                .toList();
        assertEquals(speed(trials), speed(trials.counted(1, false).with(news)));
    }

    @Test
    void ofThoseGerminatedIsSaid() {
        var trials = Trials.of(place("spot 12"), List.of(SOAK), THROUGH_OF_GERMINATED)
                .drawn(1);
        var readings = sooner(trials).readings().stream()
                .map(r -> reading(
                        r.tray(), r.day(), 1, Map.of("through", r.values().get("through"), "germinated", 45.0)))
                .toList();
        var speed = speed(trials.with(readings));
        assertTrue(
                speed.notes().contains("The seeds that could come out are those germinated by day 3, on every day."));
        assertTrue(speed.curves().get(0).finalRate() > 40.0 / 45 - 1e-9);
    }

    @Test
    void neverMadeCombinationsAreNoObstacle() {
        var trials = Trials.of(
                        place("block 3", "spot 3"), List.of(SOAK, factor("mat", "tray", "hemp", "coir")), THROUGH)
                .never(Map.of("soak", "8", "mat", "coir"))
                .drawn(1);
        var speed = speed(sooner(trials));
        assertEquals(3, speed.curves().size());
        assertEquals(2, speed.hazard().terms().size());
    }

    @Test
    void twoThousandTraysTakeLessThanASecondOrTwo() {
        var trials = Trials.of(
                        place("block 20", "spot 100"), List.of(SOAK, factor("mat", "tray", "hemp", "coir")), THROUGH)
                .drawn(1);
        var whole = sooner(trials);
        var structure = Structure.of(trials.trial(), trials.layout().trays());
        var tallies = Tallies.of(trials.trial(), whole.readings());
        var count = new Outcome.Count("through", "sown", 3);
        assertTimeout(Duration.ofSeconds(2), () -> {
            var courses = Courses.of(structure, tallies.courses(count)).orElseThrow();
            assertEquals(3, Hazards.of(courses).findings().orElseThrow().terms().size());
            assertEquals(4, TimesToHalf.of(courses).size());
        });
    }
}
