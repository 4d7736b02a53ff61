package org.fairtray;

import static org.fairtray.Edges.MAT;
import static org.fairtray.Edges.SOAK;
import static org.fairtray.Edges.TWELVE;
import static org.fairtray.Edges.plausible;
import static org.fairtray.Edges.soakAndMat;
import static org.fairtray.Edges.test;
import static org.fairtray.Edges.verdicts;
import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.SEEDS;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.THROUGH_OF_GERMINATED;
import static org.fairtray.Trials.place;
import static org.fairtray.Trials.reading;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;

/** Readings at the edges of what can be analysed: each must end in an answer, if only "cannot tell". */
class AnalysisOfReadingsTest {

    @Test
    void nothingAnywhereIsNoWorthwhileChange() {
        var none = Sound.findings(soakAndMat().readAll(0));
        assertEquals(Map.of("soak", "no worthwhile change", "mat", "no worthwhile change"), verdicts(none));
        assertEquals("penalised", none.outcomes().get(0).logistic().used());
        none.outcomes().get(0).effects().forEach(e -> assertEquals(0, e.difference(), 1e-12));
    }

    @Test
    void everythingEverywhereIsNoWorthwhileChange() {
        var all = Sound.findings(soakAndMat().readAll(SEEDS));
        assertEquals(Map.of("soak", "no worthwhile change", "mat", "no worthwhile change"), verdicts(all));
        assertEquals(1, ((Findings.CountSummary) all.outcomes().get(0).summary().get(0)).rate());
    }

    @Test
    void noneHereAndAllThereIsAChange() {
        var trials = soakAndMat();
        var findings = Sound.findings(
                trials.read(t -> Map.of("through", t.treatment().level("soak").equals("8") ? (double) SEEDS : 0.0)));
        assertEquals("changed", verdicts(findings).get("soak"));
        assertEquals("no worthwhile change", verdicts(findings).get("mat"));
        String separation = findings.outcomes().get(0).logistic().separation();
        assertTrue(separation.contains("0 of 100") && separation.contains("100 of 100"), separation);
    }

    @Test
    void oneTrayTellsNothing() {
        var trials = Trials.of(TWELVE, List.of(SOAK), THROUGH, HEIGHT).drawn(1);
        String first = trials.layout().trays().get(0).code();
        var findings = Sound.findings(plausible(trials.keeping(t -> t.code().equals(first))));
        assertEquals(Map.of("soak", "cannot tell"), verdicts(findings));
        assertEquals(1, findings.outcomes().get(1).trays());
    }

    @Test
    void twoTraysTellNothing() {
        var trials = Trials.of(place("spot 2"), List.of(SOAK), THROUGH, HEIGHT).drawn(1);
        var findings = Sound.findings(plausible(trials));
        assertEquals(Map.of("soak", "cannot tell"), verdicts(findings));
        assertEquals("cannot tell", findings.outcomes().get(1).verdicts().get(0).verdict());
        assertNull(test(findings, "soak").p());
    }

    @Test
    void anOutcomeThatWasNeverReadIsSaidToBe() {
        var trials = Trials.of(TWELVE, List.of(SOAK), THROUGH, HEIGHT).drawn(1);
        var findings = Sound.findings(trials.read(t -> Map.of("through", 20.0)));
        var height = findings.outcomes().get(1);
        assertEquals(0, height.trays());
        assertEquals(12, height.leftOut().size());
        assertNull(height.anova());
        assertTrue(findings.warnings().stream().anyMatch(w -> w.kind().equals("nothing read")));
    }

    @Test
    void noReadingAtAllIsNoError() {
        var trials = Trials.of(TWELVE, List.of(SOAK), THROUGH, THROUGH_OF_GERMINATED, HEIGHT)
                .drawn(1);
        var findings = Sound.findings(trials);
        assertEquals(3, findings.outcomes().stream().filter(o -> o.trays() == 0).count());
    }

    @Test
    void aTrayWithoutAReadingOnTheDayIsLeftOut() {
        var whole = plausible(soakAndMat());
        String last = whole.layout().trays().get(11).code();
        var findings = Sound.findings(whole.with(whole.readings().stream()
                .map(r -> r.tray().equals(last) ? reading(last, 2, 1, r.values()) : r)
                .toList()));
        var outcome = findings.outcomes().get(0);
        assertEquals(11, outcome.trays());
        assertEquals(List.of(last), outcome.leftOut());
        assertEquals(
                "no reading of through on day 3",
                outcome.leftOutReasons().get(0).reason());
        assertEquals(5.0, test(findings, "soak").denominatorDf());
    }

    @Test
    void aMissingFrameCountsWithTheFramesRead() {
        var trials = Trials.of(TWELVE, List.of(SOAK), THROUGH, HEIGHT).drawn(1).counted(2, true);
        String first = trials.layout().trays().get(0).code();
        var read = plausible(trials).readings().stream()
                .filter(r -> !(r.tray().equals(first) && r.frame() == 2))
                .toList();
        var outcome = Sound.findings(trials.with(read)).outcomes().get(0);
        assertEquals(SEEDS, outcome.trayValues().get(0).of());
        assertEquals(2 * SEEDS, outcome.trayValues().get(1).of());
        assertEquals(List.of(), outcome.leftOut());
    }

    @Test
    void newCountsAddUpToTheDay() {
        var trials = Trials.of(place("spot 4"), List.of(SOAK), THROUGH).drawn(1).counted(1, false);
        var readings = new ArrayList<Reading>();
        for (var tray : trials.layout().trays()) {
            readings.add(reading(tray.code(), 3, 1, Map.of("through", 5.0)));
            readings.add(reading(tray.code(), 1, 1, Map.of("through", 10.0)));
            readings.add(reading(tray.code(), 2, 1, Map.of()));
        }
        var outcome = Sound.findings(trials.with(readings)).outcomes().get(0);
        outcome.trayValues().forEach(v -> assertEquals(15, v.successes()));
        assertEquals(
                List.of(10L, 15L),
                outcome.progress().get(0).points().stream()
                        .map(p -> p.successes() / p.trays())
                        .toList());
    }

    @Test
    void aTrayInWhichNothingGerminatedHasNoRateOfThem() {
        var trials = Trials.of(TWELVE, List.of(SOAK), THROUGH_OF_GERMINATED).drawn(1);
        var whole = plausible(trials);
        String first = trials.layout().trays().get(0).code();
        var findings = Sound.findings(whole.with(whole.readings().stream()
                .map(r -> r.tray().equals(first) ? reading(first, 3, 1, Map.of("through", 0.0, "germinated", 0.0)) : r)
                .toList()));
        var outcome = findings.outcomes().get(0);
        assertEquals(List.of(first), outcome.leftOut());
        assertEquals(
                "nothing germinated on day 3", outcome.leftOutReasons().get(0).reason());
        assertEquals(11, outcome.trays());
    }

    @Test
    void identicalMeasuresAreNotTested() {
        var trials = Trials.of(TWELVE, List.of(SOAK, MAT), HEIGHT).drawn(1);
        for (double height : new double[] {0, 0.1, 31.7, 1e9}) {
            var findings = Sound.findings(trials.read(t -> Map.of("height_mm", height)));
            assertEquals(Map.of("soak", "cannot tell", "mat", "cannot tell"), verdicts(findings));
            var anova = findings.outcomes().get(0).anova().strata().get(0);
            anova.terms().forEach(t -> assertNull(t.f(), t::term));
        }
    }

    @Test
    void measuresThatDifferOnlyByTreatmentAreNotCertain() {
        var trials = Trials.of(TWELVE, List.of(SOAK), HEIGHT).drawn(1);
        var findings = Sound.findings(
                trials.read(t -> Map.of("height_mm", t.treatment().level("soak").equals("8") ? 30.1 : 20.3)));
        assertEquals(Map.of("soak", "cannot tell"), verdicts(findings));
    }

    @Test
    void codesThatLookLikeNumbersAreCodes() {
        var drawn = Trials.of(place("spot 8"), List.of(SOAK), THROUGH, HEIGHT).drawn(1);
        var codes = List.of("1", "01", "1.0", "1e0", "NA", "null", "true", "2026-01-01");
        var trays = new ArrayList<Tray>();
        for (var tray : drawn.layout().trays()) {
            trays.add(new Tray(codes.get(trays.size()), tray.stand(), Map.of(), tray.treatment()));
        }
        var coded = drawn.with(new Layout(trays));
        var findings = Sound.findings(plausible(coded));
        assertEquals(8, findings.outcomes().get(0).trays());
        assertEquals(8, findings.outcomes().get(1).trays());
        assertEquals(List.of(), findings.outcomes().get(0).leftOut());
        ITERATED.assertClose(
                test(plausible(drawn).findings(), "soak").p(),
                test(findings, "soak").p());
    }

    @Test
    void columnsThatDifferOnlyInCapitalsAreTwo() {
        var trials = Trials.of(
                        place("spot 8"),
                        List.of(SOAK),
                        new Outcome.Measure("height", 3),
                        new Outcome.Measure("Height", 3),
                        new Outcome.Measure("Tray", 3))
                .drawn(1);
        var findings = Sound.findings(trials.read(t -> Map.of("height", 1.0, "Height", 2.0, "Tray", 3.0)));
        assertEquals(
                List.of(1.0, 2.0, 3.0),
                findings.outcomes().stream()
                        .map(o -> ((Findings.MeasureSummary) o.summary().get(0)).mean())
                        .toList());
    }

    @Test
    void ratesOfTreatmentsAreTheirSeedsAddedUp() {
        var trials = soakAndMat();
        var outcome = Sound.findings(plausible(trials)).outcomes().get(0);
        for (var summary : outcome.summary()) {
            var count = (Findings.CountSummary) summary;
            long sum = outcome.trayValues().stream()
                    .filter(v -> v.treatment().equals(count.treatment()))
                    .mapToLong(Findings.TrayValue::successes)
                    .sum();
            assertEquals(sum, count.successes());
            SUMMED.assertClose(sum / (2.0 * SEEDS), count.rate());
        }
    }

    /** Took 5 s on two busy cores, nearly all of it for fitting 192 stacks; the limit is for slower machines. */
    @Test
    void fortyThousandReadingsAreNoHindrance() {
        var trials = Trials.of(place("shelf 8", "stack 24", "spot 6"), List.of(SOAK, MAT), THROUGH, HEIGHT)
                .counted(12, true)
                .drawn(1);
        var readings = new ArrayList<Reading>();
        for (int day = 1; day <= 3; day++) {
            for (var tray : trials.layout().trays()) {
                for (int frame = 1; frame <= 12; frame++) {
                    double through = 4.0 * day + readings.size() % 7;
                    readings.add(reading(tray.code(), day, frame, Map.of("through", through, "height_mm", through)));
                }
            }
        }
        assertTrue(readings.size() > 40_000);
        var findings = assertTimeout(
                Duration.ofSeconds(30), () -> trials.with(readings).findings());
        assertEquals(1152, findings.outcomes().get(0).trays());
    }
}
