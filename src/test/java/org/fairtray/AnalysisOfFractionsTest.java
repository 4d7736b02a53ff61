package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.audit.Audit;
import org.fairtray.files.TrialFiles;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.report.Report;
import org.fairtray.trial.Seal;
import org.junit.jupiter.api.Test;

/** Parts of all combinations in eight trays or sixteen, written down by hand: audited and analysed. */
class AnalysisOfFractionsTest {
    /** Signs of the first three factors; each other column is a product of these. */
    private static final int[][] SIGNS = {
        {-1, -1, -1}, {1, -1, -1}, {-1, 1, -1}, {1, 1, -1}, {-1, -1, 1}, {1, -1, 1}, {-1, 1, 1}, {1, 1, 1}
    };

    /** Invented: germinated of 100 in each of the eight trays, and height. */
    private static final int[] GERMINATED = {40, 62, 45, 66, 52, 71, 55, 83};

    private record Fraction(TrialFiles files) {
        Audit audit() {
            return Audit.of(files.trial(), files.layout().orElseThrow(), Seal.State.HOLDS, List.of());
        }

        Findings analysis() {
            var sealing = new Sealing(Seal.State.HOLDS, Optional.empty(), "", "");
            return Analysis.of(files.trial(), files.layout().orElseThrow(), files.readings(), sealing, "test");
        }
    }

    /**
     * A fraction of two-level factors a, b, c and so on.
     *
     * @param products which of the first three factors each later one is a product of
     */
    private static Fraction fraction(int interactions, int times, int[]... products) {
        int factors = 3 + products.length;
        var plan = new StringBuilder("{format: 1, trial: F, factors: [");
        var layout = new StringBuilder("tray,spot");
        var readings = new StringBuilder("tray,day,germinated,height\n");
        for (int f = 0; f < factors; f++) {
            plan.append(f > 0 ? ", " : "").append("{name: " + (char) ('a' + f) + ", levels: [lo, hi]}");
            layout.append("," + (char) ('a' + f));
        }
        plan.append("], place: [{name: spot, count: " + 8 * times + "}], counting: {days: [4], seeds_per_frame: 100},"
                + " outcomes: [{name: germinated, kind: count, day: 4}, {name: height, kind: measure, day: 4}],"
                + " analysis: {interactions: " + interactions + "}}");
        for (int tray = 0; tray < 8 * times; tray++) {
            int[] own = SIGNS[tray % 8];
            layout.append("\nT" + (tray + 1) + "," + (tray + 1));
            for (int f = 0; f < factors; f++) {
                int sign = f < 3 ? own[f] : 1;
                for (int of : f < 3 ? new int[0] : products[f - 3]) {
                    sign *= own[of];
                }
                layout.append(sign < 0 ? ",lo" : ",hi");
            }
            int count = GERMINATED[tray % 8] + tray / 8 * (tray % 3);
            readings.append("T" + (tray + 1) + ",4," + count + "," + (10 + count * 0.5) + "\n");
        }
        return new Fraction(TrialFiles.of(Map.of(
                "plan.yaml", plan.toString().getBytes(StandardCharsets.UTF_8),
                "layout.csv", (layout + "\n").getBytes(StandardCharsets.UTF_8),
                "readings.csv", readings.toString().getBytes(StandardCharsets.UTF_8))));
    }

    private static Fraction sixInEight(int interactions) {
        return fraction(interactions, 1, new int[] {0, 1}, new int[] {0, 2}, new int[] {1, 2});
    }

    private static Fraction sevenInEight(int interactions) {
        return fraction(interactions, 1, new int[] {0, 1}, new int[] {0, 2}, new int[] {1, 2}, new int[] {0, 1, 2});
    }

    private static Findings.TermTest test(Findings findings, String term) {
        return findings.outcomes().get(0).tests().stream()
                .filter(t -> t.term().equals(term))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void sixFactorsInEightTraysAreRepeatedInHiding() {
        var audit = sixInEight(1).audit();
        assertEquals(
                List.of(),
                audit.findings().stream()
                        .filter(f -> !f.kind().equals("patterned"))
                        .toList());
        assertEquals(
                List.of(
                        "No two trays got the same, but each level of a, b, c, d, e, f is on 4 trays, which differ evenly in"
                                + " the rest: these stand in for repeats.",
                        "That leaves 1 degree of freedom to judge by, which is few: a difference counts only if it is 12.7"
                                + " times its standard error, not 2.0 times as in a large trial.",
                        "The trays are a part of all 64 combinations.",
                        "a can't be told apart from b with d acting together, c with e acting together."),
                audit.notes().subList(0, 4));
        assertEquals(List.of(), audit.advice());
    }

    /** By hand: 70.5 less 48 of a hundred is what a does. */
    @Test
    void eachOfSixFactorsIsFourTraysAgainstFour() {
        var findings = sixInEight(1).analysis();
        assertEquals(1.0, test(findings, "a").denominatorDf());
        var a = findings.outcomes().get(0).effects().get(0);
        assertEquals(0.225, a.difference(), 0.002);
        assertNotNull(a.low());
        var height = (Effect.OnMean) findings.outcomes().get(1).effects().get(0);
        assertEquals(11.25, height.difference(), 1e-9);
        assertEquals(List.of(), findings.warnings());
    }

    @Test
    void interactionsThatWouldHideMainEffectsAreNotFitted() {
        var findings = sixInEight(2).analysis();
        assertEquals(
                sixInEight(1).analysis().outcomes().get(0).tests(),
                findings.outcomes().get(0).tests());
        assertEquals(
                List.of(
                        "The plan asks for more than these trays can tell: what one factor does can't be told apart from"
                                + " what 2 others do acting together. It is judged as if no two factors acted together. To say so"
                                + " in the plan: analysis: {interactions: 1}."),
                findings.warnings().stream().map(Findings.Warning::sentence).toList());
        assertTrue(
                sixInEight(2)
                        .audit()
                        .notes()
                        .contains(
                                "The trays are a part of all 64 combinations. Each factor is judged as if no 2 acted together."));
    }

    @Test
    void sevenFactorsInEightTraysLeaveNothingOver() {
        for (int interactions = 1; interactions <= 2; interactions++) {
            var faults = sevenInEight(interactions).audit().findings().stream()
                    .filter(f -> !f.kind().equals("patterned"))
                    .toList();
            assertEquals(
                    List.of(new Audit.Finding(
                            "no replication",
                            List.of("a", "b", "c", "d", "e", "f", "g"),
                            List.of(),
                            "8 trays allow 7 comparisons, and the factors use up all of them. Each level is on several"
                                    + " trays, but nothing is left to hold a difference against.",
                            "Lay the trial in twice as many trays, or drop a factor. As it is, it is a first look only:"
                                    + " see which differences are largest, and try these again.")),
                    faults);
            var findings = sevenInEight(interactions).analysis();
            for (var outcome : findings.outcomes()) {
                outcome.verdicts().forEach(v -> {
                    assertEquals("cannot tell", v.verdict());
                    assertTrue(v.sentence().contains("8 trays allow 7 comparisons"), v.sentence());
                    assertTrue(v.sentence().contains("What was seen: "), v.sentence());
                });
                outcome.effects().forEach(e -> assertNull(e.low()));
            }
            assertFalse(Report.of(
                            sevenInEight(interactions).files.trial(),
                            sevenInEight(interactions).files.layout().orElseThrow(),
                            findings)
                    .html()
                    .contains("NaN"));
        }
    }

    /** Four factors, the fourth the product of three, in sixteen trays: pairs of factors are mixed up, main effects clear. */
    @Test
    void aHalfOfAllCombinationsTwiceHasEffects() {
        var findings = fraction(2, 2, new int[] {0, 1, 2}).analysis();
        assertEquals(8.0, test(findings, "d").denominatorDf());
        var a = (Effect.OnMean) findings.outcomes().get(1).effects().get(0);
        double lo = 0;
        double hi = 0;
        for (int tray = 0; tray < 16; tray++) {
            double height = 10 + 0.5 * (GERMINATED[tray % 8] + tray / 8 * (tray % 3));
            lo += tray % 2 == 0 ? height / 8 : 0;
            hi += tray % 2 == 0 ? 0 : height / 8;
        }
        assertEquals(hi - lo, a.difference(), 1e-9);
        assertNotNull(a.p());
    }

    /** Interactions can't be estimated one by one, and once eight trays are used up there is no variance, not a defect. */
    @Test
    void aHalfOfAllCombinationsOnceIsAFirstLook() {
        var findings = fraction(2, 1, new int[] {0, 1, 2}).analysis();
        assertTrue(
                findings.warnings()
                        .get(0)
                        .sentence()
                        .startsWith(
                                "8 trays allow 7 comparisons, and the factors, by themselves and acting together, use up all of them."));
    }
}
