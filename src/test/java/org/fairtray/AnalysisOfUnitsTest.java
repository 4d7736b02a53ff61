package org.fairtray;

import static org.fairtray.Edges.MAT;
import static org.fairtray.Edges.SOAK;
import static org.fairtray.Edges.plausible;
import static org.fairtray.Edges.test;
import static org.fairtray.Edges.verdicts;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Place;
import org.fairtray.trial.Rotation;
import org.junit.jupiter.api.Test;

/** What a level is held against where trays share a jar, and where they change places. All readings are invented. */
class AnalysisOfUnitsTest {
    private static final int TRIALS = 100;

    private static Trials jars(Place place, int count) {
        return Trials.of(place, List.of(SOAK, MAT), THROUGH).sharing(new Batch("jar", "soak", count));
    }

    /** Counts of 50 seeds a tray whose log-odds vary between jars (standard deviation 0.8) and between nothing else. */
    private static Trials withJarEffects(Trials trials, long seed) {
        var random = new Random(seed);
        var effects = new HashMap<String, Double>();
        return trials.read(t -> {
            String jar = t.treatment().level("soak") + t.batches().get("jar");
            double effect = effects.computeIfAbsent(jar, j -> 0.8 * random.nextGaussian());
            double rate = 1 / (1 + Math.exp(-effect));
            return Map.of("through", (double) random.ints(50, 0, 1 << 20)
                    .filter(i -> i < rate * (1 << 20))
                    .count());
        });
    }

    private static int falselyChanged(Place place, int jars, boolean toldOfJars) {
        int changed = 0;
        for (long seed = 1; seed <= TRIALS; seed++) {
            var read = withJarEffects(jars(place, jars).drawn(seed), seed);
            var asked = toldOfJars
                    ? read
                    : Trials.of(place, List.of(SOAK, MAT), THROUGH)
                            .with(read.layout())
                            .with(read.readings());
            changed += verdicts(asked.findings()).get("soak").equals("changed") ? 1 : 0;
        }
        return changed;
    }

    /** Of 100 trials without any effect of soaking 5 may say "changed"; more than 12 would come once in 800 times. */
    @Test
    void jarsThatDifferAreNotTakenForSoaking() {
        int told = falselyChanged(place("stack 3", "spot 6"), 3, true);
        assertTrue(told <= 12, "changed " + told + " times of " + TRIALS);
        int untold = falselyChanged(place("stack 3", "spot 6"), 3, false);
        assertTrue(untold > 15, "changed " + untold + " times of " + TRIALS + " without the plan's batches");
    }

    @Test
    void neitherWhereJarsCanNotServeStacksEvenly() {
        // 3 trays of a level in each stack, from 2 jars.
        int told = falselyChanged(place("stack 4", "spot 6"), 2, true);
        assertTrue(told <= 12, "changed " + told + " times of " + TRIALS);
    }

    @Test
    void soakingIsTestedBetweenJarsAndMatsWithinThem() {
        var findings =
                Sound.findings(plausible(jars(place("stack 3", "spot 6"), 3).drawn(1)));
        assertEquals("jar", test(findings, "soak").stratum());
        assertEquals(4.0, test(findings, "soak").denominatorDf());
        assertEquals("tray", test(findings, "mat").stratum());
        assertEquals(
                List.of("stack", "jar", "tray"),
                findings.outcomes().get(0).design().strata());
    }

    @Test
    void oneJarForEachLevelLeavesNothingToTestAgainst() {
        var findings =
                Sound.findings(plausible(jars(place("stack 3", "spot 6"), 1).drawn(1)));
        assertEquals("cannot tell", verdicts(findings).get("soak"));
        assertNull(test(findings, "soak").p());
        assertEquals(
                List.of("false replication"),
                findings.warnings().stream()
                        .filter(w -> w.factors().contains("soak"))
                        .map(Findings.Warning::kind)
                        .toList());
    }

    @Test
    void whereTraysChangePlacesTheseAreNeitherBlocksNorStrata() {
        var place = place("stack 4", "layer 6 across stack");
        var rotation = new Rotation("layer", List.of(1, 2));
        var still = Trials.of(place, List.of(SOAK), THROUGH);
        var findings = Sound.findings(plausible(still.rotating(rotation).drawn(1)));
        assertEquals(
                List.of("stack", "tray"), findings.outcomes().get(0).design().strata());
        assertEquals(
                List.of("stack", "layer", "tray"),
                Sound.findings(plausible(still.drawn(1)))
                        .outcomes()
                        .get(0)
                        .design()
                        .strata());
        assertTrue(
                findings.outcomes()
                        .get(0)
                        .methods()
                        .contains(
                                "Trays changed places of layer on day 1, 2, so that each stood at 3 of 6; layer is then"
                                        + " neither a block nor a stratum, and what it did is averaged over and counts as"
                                        + " difference between trays."),
                () -> findings.outcomes().get(0).methods().toString());
    }

    @Test
    void aPlaceThatTraysMoveThroughConfoundsNothing() {
        var place = place("stack 4", "layer 2 across stack");
        var still = Trials.of(place, List.of(SOAK), THROUGH).laid(at -> List.of(at.get(1) == 1 ? "0" : "8"));
        assertTrue(confounded(still));
        assertFalse(confounded(still.rotating(new Rotation("layer", List.of(1)))));
    }

    private static boolean confounded(Trials trials) {
        return plausible(trials).findings().warnings().stream()
                .anyMatch(w -> w.kind().equals("confounded"));
    }
}
