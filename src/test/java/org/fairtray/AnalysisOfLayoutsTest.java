package org.fairtray;

import static org.fairtray.Edges.COVER;
import static org.fairtray.Edges.MAT;
import static org.fairtray.Edges.SOAK;
import static org.fairtray.Edges.TWELVE;
import static org.fairtray.Edges.coefficients;
import static org.fairtray.Edges.plausible;
import static org.fairtray.Edges.soakAndMat;
import static org.fairtray.Edges.test;
import static org.fairtray.Edges.verdicts;
import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Layouts at the edges of what can be analysed: each must end in an answer, if only "cannot tell". */
class AnalysisOfLayoutsTest {

    @Test
    void oneTrayATreatmentTellsNothingBesideTheInteraction() {
        var trials = Trials.of(place("spot 6"), List.of(SOAK, MAT), THROUGH).drawn(3);
        assertEquals(Map.of("soak", "cannot tell", "mat", "cannot tell"), verdicts(Sound.findings(plausible(trials))));
        var additive = Sound.findings(plausible(trials.interactions(1)));
        assertEquals(2.0, test(additive, "soak").denominatorDf());
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
        assertEquals(
                List.of(19.0, 14.0, 12.0).get(order - 1), test(findings, "soak").denominatorDf());
        assertEquals("changed", verdicts(findings).get("soak"));
    }

    @Test
    void coverOnStacksIsHeldAgainstStacks() {
        var trials = Trials.of(place("shelf 2", "stack 4", "spot 4"), List.of(SOAK, COVER), THROUGH, HEIGHT)
                .drawn(4);
        var findings = Sound.findings(plausible(trials));
        for (var outcome : findings.outcomes()) {
            var cover = outcome.tests().get(1);
            assertEquals("stack", cover.stratum());
            assertEquals(8.0 - 2 - 1, cover.denominatorDf());
            assertEquals("tray", outcome.tests().get(0).stratum());
            assertEquals(32.0 - 8 - 2, outcome.tests().get(0).denominatorDf());
        }
        assertEquals("split-plot", findings.outcomes().get(0).design().name());
        assertTrue(coefficients(findings).contains("shelf=2"));
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
        assertEquals(6.0, test(findings, "mat").denominatorDf());
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
                        .map(Effect::level)
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
        assertEquals(4.0, test(findings, "soak").denominatorDf());
    }
}
