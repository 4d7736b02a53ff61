package org.fairtray;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.fairtray.Trials.HEIGHT;
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
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.analysis.Findings;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Trials at the edges of what can be analysed: each must end in an answer, if only "cannot tell". */
class AnalysisTest {
    private static final Factor SOAK = factor("soak", "tray", "0", "8");
    private static final Factor MAT = factor("mat", "tray", "hemp", "coir", "pad");
    private static final Factor COVER = factor("cover", "stack", "0", "3");
    private static final Place TWELVE = place("spot 12");

    private static Trials soakAndMat() {
        return Trials.of(TWELVE, List.of(SOAK, MAT), THROUGH).drawn(1);
    }

    private static Map<String, String> verdicts(Findings findings) {
        var verdicts = new LinkedHashMap<String, String>();
        findings.outcomes().get(0).verdicts().forEach(v -> verdicts.put(v.factor(), v.verdict()));
        return verdicts;
    }

    private static Findings.TermTest test(Findings findings, String term) {
        return findings.outcomes().get(0).tests().stream()
                .filter(t -> t.term().equals(term))
                .findFirst()
                .orElseThrow();
    }

    /** A number through that depends on the treatment and a little on the tray. */
    private static Map<String, Double> plausible(Trials trials, Tray tray) {
        int number = trials.numbers().get(tray.code());
        double through = 15
                + ("8".equals(tray.treatment().level("soak")) ? 12 : 0)
                + ("3".equals(tray.treatment().level("cover")) ? 7 : 0)
                + ("coir".equals(tray.treatment().level("mat")) ? 5 : 0)
                + (number * 7 + number * number) % 5;
        return Map.of("through", through, "germinated", through + 4, "height_mm", 20 + through / 3);
    }

    private static Trials plausible(Trials trials) {
        return trials.read(t -> plausible(trials, t));
    }

    @Test
    void nothingAnywhereIsNoWorthwhileChange() {
        var none = Sound.findings(soakAndMat().readAll(0));
        assertEquals(Map.of("soak", "no worthwhile change", "mat", "no worthwhile change"), verdicts(none));
        assertNull(none.outcomes().get(0).logistic().used());
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
    void oneTrayATreatmentTellsNothingBesideTheInteraction() {
        var trials = Trials.of(place("spot 6"), List.of(SOAK, MAT), THROUGH).drawn(3);
        assertEquals(Map.of("soak", "cannot tell", "mat", "cannot tell"), verdicts(Sound.findings(plausible(trials))));
        var additive = Sound.findings(plausible(trials.interactions(1)));
        assertEquals(2, test(additive, "soak").denominatorDf());
        assertNotNull(test(additive, "soak").p());
    }

    @Test
    void aFactorThatWasNotVariedTellsNothing() {
        var findings = Sound.findings(
                plausible(soakAndMat().keeping(t -> t.treatment().level("mat").equals("coir"))));
        assertEquals("cannot tell", verdicts(findings).get("mat"));
        assertNotNull(test(findings, "soak").p());
        assertEquals(
                List.of("no replication"),
                findings.warnings().stream()
                        .filter(w -> w.factors().contains("mat"))
                        .map(Findings.Warning::kind)
                        .toList());
    }

    @Test
    void aFactorThatGoesWithTheShelfTellsNothing() {
        var trials = Trials.of(place("shelf 2", "spot 6"), List.of(SOAK), THROUGH)
                .laid(at -> List.of(at.get(0) == 1 ? "0" : "8"));
        var findings = Sound.findings(plausible(trials));
        assertEquals(Map.of("soak", "cannot tell"), verdicts(findings));
        assertNull(test(findings, "soak").p());
        assertTrue(findings.warnings().stream().anyMatch(w -> w.kind().equals("confounded")));
    }

    @Test
    void twoFactorsThatGoTogetherTellNothing() {
        var trials = Trials.of(TWELVE, List.of(SOAK, factor("mat", "tray", "hemp", "coir")), THROUGH)
                .laid(at -> at.get(0) % 2 == 0 ? List.of("0", "hemp") : List.of("8", "coir"));
        var findings = Sound.findings(plausible(trials));
        assertEquals(Map.of("soak", "cannot tell", "mat", "cannot tell"), verdicts(findings));
        assertTrue(findings.warnings().stream()
                .anyMatch(w -> w.kind().equals("confounded") && w.factors().equals(List.of("soak", "mat"))));
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
        assertEquals(5, test(findings, "soak").denominatorDf());
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
    void aCombinationThatIsNeverMadeLeavesLessToInteract() {
        var trials = Trials.of(place("spot 20"), List.of(SOAK, MAT), THROUGH)
                .never(Map.of("soak", "8", "mat", "pad"))
                .drawn(2);
        var findings = Sound.findings(plausible(trials));
        var outcome = findings.outcomes().get(0);
        assertEquals(5, outcome.summary().size());
        assertEquals(1, test(findings, "soak × mat").df());
        outcome.effects().forEach(e -> assertNotNull(e.difference(), e::level));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3})
    void threeFactorsInteractUpToTheOrderAskedFor(int order) {
        var third = factor("light", "tray", "no", "yes");
        var trials = Trials.of(place("spot 24"), List.of(SOAK, MAT, third), THROUGH, HEIGHT)
                .interactions(order)
                .drawn(order);
        var findings = Sound.findings(plausible(trials));
        assertEquals(
                List.of(3, 6, 7).get(order - 1),
                findings.outcomes().get(0).tests().size());
        assertEquals(List.of(19, 14, 12).get(order - 1), test(findings, "soak").denominatorDf());
        assertEquals("changed", verdicts(findings).get("soak"));
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
    void coverOnStacksIsHeldAgainstStacks() {
        var trials = Trials.of(place("shelf 2", "stack 4", "spot 4"), List.of(SOAK, COVER), THROUGH, HEIGHT)
                .drawn(4);
        var findings = Sound.findings(plausible(trials));
        for (var outcome : findings.outcomes()) {
            var cover = outcome.tests().get(1);
            assertEquals("stack", cover.stratum());
            assertEquals(8 - 2 - 1, cover.denominatorDf());
            assertEquals("tray", outcome.tests().get(0).stratum());
            assertEquals(32 - 8 - 2, outcome.tests().get(0).denominatorDf());
        }
        assertEquals("split-plot", findings.outcomes().get(0).design().name());
        assertTrue(coefficients(findings).contains("shelf=2"));
    }

    private static List<String> coefficients(Findings findings) {
        return findings.outcomes().get(0).logistic().fits().get("binomial").coefficients().stream()
                .map(Findings.Coefficient::name)
                .toList();
    }

    @Test
    void rowsAndColumnsOfASquareAreBothBlocks() {
        var mats = factor("mat", "tray", "hemp", "coir", "pad", "felt");
        var trials = Trials.of(place("row 4", "column 4 across row"), List.of(mats), THROUGH)
                .drawn(1);
        var findings = Sound.findings(plausible(trials));
        assertEquals(
                List.of(
                        "(base)",
                        "row=2",
                        "row=3",
                        "row=4",
                        "column=2",
                        "column=3",
                        "column=4",
                        "mat=coir",
                        "mat=pad",
                        "mat=felt"),
                coefficients(findings));
        assertEquals("Latin square", findings.outcomes().get(0).design().name());
        assertEquals(6, test(findings, "mat").denominatorDf());
    }

    @Test
    void blocksInsideBlocksAreNamedFromTheOutsideIn() {
        var trials = Trials.of(place("shelf 2", "stack 2", "spot 4"), List.of(SOAK), THROUGH)
                .drawn(1);
        assertEquals(
                List.of("(base)", "stack=1.2", "stack=2.1", "stack=2.2", "soak=8"),
                coefficients(Sound.findings(plausible(trials))));
    }

    @Test
    void aControlThatWasNeverSownLeavesNothingToCompareWith() {
        var trials = soakAndMat().keeping(t -> !t.treatment().level("mat").equals("hemp"));
        var findings = Sound.findings(plausible(trials));
        findings.outcomes().get(0).effects().stream()
                .filter(e -> e.factor().equals("mat"))
                .forEach(e -> assertNull(e.difference()));
        assertEquals("cannot tell", verdicts(findings).get("mat"));
        assertEquals("changed", verdicts(findings).get("soak"));
    }

    @Test
    void aLevelThatIsMissingLeavesTheOthers() {
        var trials = soakAndMat().keeping(t -> !t.treatment().level("mat").equals("pad"));
        var findings = Sound.findings(plausible(trials));
        assertEquals(
                List.of("coir"),
                findings.outcomes().get(0).effects().stream()
                        .filter(e -> e.factor().equals("mat"))
                        .map(Findings.Effect::level)
                        .toList());
        assertEquals(1, test(findings, "mat").df());
    }

    @Test
    void aLevelThatStandsAloneWithEveryOtherIsSaidToBeUntellable() {
        var trials = soakAndMat()
                .keeping(t -> t.treatment().level("mat").equals("pad")
                        ? t.treatment().level("soak").equals("8")
                        : t.treatment().level("soak").equals("0"));
        var findings = Sound.findings(plausible(trials.interactions(1)));
        assertEquals("cannot tell", verdicts(findings).get("soak"));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void missingTraysAreNoHindrance(long seed) {
        var random = new java.util.Random(seed);
        var trials = Trials.of(
                        place("shelf 2", "stack 4", "position 4 across stack"),
                        List.of(SOAK, factor("mat", "tray", "hemp", "coir")),
                        THROUGH,
                        HEIGHT)
                .drawn(seed)
                .keeping(t -> random.nextInt(5) > 0);
        var findings = Sound.findings(plausible(trials));
        assertEquals(trials.layout().trays().size(), findings.outcomes().get(0).trays());
        assertNotNull(test(findings, "soak").p());
    }

    @Test
    void aSharedJarIsWhatSoakingIsHeldAgainst() {
        var drawn = Trials.of(TWELVE, List.of(SOAK), THROUGH).drawn(1);
        var seen = new java.util.HashMap<String, Integer>();
        var trays = drawn.layout().trays().stream()
                .map(t -> new Tray(
                        t.code(),
                        t.stand(),
                        Map.of("jar", 1 + seen.merge(t.treatment().level("soak"), 1, Integer::sum) % 3),
                        t.treatment()))
                .toList();
        var findings = Sound.findings(
                plausible(drawn.sharing(new Batch("jar", "soak", 3)).with(new Layout(trays))));
        assertEquals("jar", test(findings, "soak").stratum());
        assertEquals(4, test(findings, "soak").denominatorDf());
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
