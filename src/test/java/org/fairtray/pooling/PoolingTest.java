package org.fairtray.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.fairtray.Tolerance;
import org.fairtray.findings.Pooled;
import org.fairtray.pooling.contribution.Contribution;
import org.fairtray.pooling.contribution.Contribution.Finding;
import org.fairtray.pooling.contribution.Shared;
import org.fairtray.trial.CommonNames;
import org.junit.jupiter.api.Test;

class PoolingTest {
    private static final String PLAN = """
            format: 1
            trial: %s
            crop: {name: %s}
            factors: [%s]
            place: [{name: shelf, count: 3}, {name: spot, count: 4}]
            counting: {days: [5], frames_per_tray: 2, seeds_per_frame: 50%s}
            outcomes: [{name: through, kind: count, of: sown, day: 5}]
            expect: {control_rate: 0.35, worthwhile: 0.1, tray_correlation: 0.01}
            """;

    private static SharedTrial trial(int number, String crop, String factors, Map<String, Double> effects) {
        return trial(number, crop, factors, "", effects);
    }

    private static SharedTrial trial(
            int number, String crop, String factors, String more, Map<String, Double> effects) {
        var plan = PLAN.formatted("Trial " + number, crop, factors, more);
        return new SharedTrial(
                "id" + number, Optional.empty(), Contribution.of(Shared.sown(plan, number, effects, -0.4)));
    }

    private static final String SOAK = "{name: soak, unit: h, levels: [0, 8]}";

    private static List<SharedTrial> soaks(int number, double effect) {
        var trials = new ArrayList<SharedTrial>();
        for (int i = 1; i <= number; i++) {
            trials.add(trial(i, "cress", SOAK, Map.of("soak=8", effect)));
        }
        return trials;
    }

    private static Pooled pooled(List<SharedTrial> trials) {
        return Pooling.of(trials::forEach, PoolingChoices.USUAL, "0.1.0");
    }

    private static PoolingChoices with(CommonNames names) {
        return new PoolingChoices(names, Set.of(), OptionalDouble.empty(), 0.05, PoolingChoices.SOME_TRAYS);
    }

    @Test
    void findsTheEffectThatAllTrialsHave() {
        var pooled = pooled(soaks(9, 0.8));
        assertEquals(9, pooled.trials());
        assertEquals(9 * 12, pooled.trays());
        var effect = pooled.effects().get(0);
        assertEquals("reml, hartung-knapp", effect.method());
        assertEquals(
                List.of("soak", "8", "0", "through"),
                List.of(effect.factor(), effect.level(), effect.against(), effect.outcome()));
        assertTrue(effect.low() < 0.8 && 0.8 < effect.high(), effect.low() + " to " + effect.high());
        assertEquals("changed", pooled.verdicts().get(0).verdict());
        assertEquals(9, effect.studies().size());
        assertEquals(9, effect.leaveOneOut().size());
        assertEquals(9, effect.cumulative().size());
        assertEquals(effect.estimate(), effect.cumulative().get(8).estimate());
        assertNull(effect.smallStudies(), "fewer than ten trials");
        Tolerance.CLOSED_FORM.assertClose(
                1, effect.studies().stream().mapToDouble(Pooled.Study::weight).sum());
        // Both ways take the same counts, so they tell the same within a part of their error.
        var oneStage = effect.oneStage();
        assertNull(oneStage.why());
        assertEquals(108, oneStage.trays());
        assertTrue(Math.abs(oneStage.estimate() - effect.estimate()) < effect.standardError(), oneStage.toString());
    }

    @Test
    void saysSoInASentenceWithNumbers() {
        assertEquals(
                "Soak changed through: 60 % with 8 h against 41 % with 0 h, 19 points more (95 % interval 16 to 21 more; p <"
                        + " 0.001; 9 trials).",
                pooled(soaks(9, 0.8)).verdicts().get(0).sentence());
    }

    @Test
    void saysThatNothingWorthwhileChanged() {
        var verdict = pooled(soaks(12, 0.0)).verdicts().get(0);
        assertEquals("no worthwhile change", verdict.verdict());
        assertTrue(
                verdict.sentence().contains("A difference below 10 points was said not to matter."),
                verdict.sentence());
    }

    @Test
    void oneTrialIsNoPool() {
        var pooled = pooled(soaks(1, 0.8));
        assertEquals("cannot tell", pooled.verdicts().get(0).verdict());
        assertTrue(pooled.verdicts().get(0).sentence().startsWith("Only one trial tells of soak"));
        var effect = pooled.effects().get(0);
        assertEquals("one trial", effect.method());
        assertNull(effect.tau2());
        assertNull(effect.predictionLow());
        assertNull(effect.oneStage());
        assertNotNull(effect.low());
    }

    @Test
    void orderOfFilesChangesNothing() {
        var trials = new ArrayList<>(soaks(6, 0.5));
        var inOrder = pooled(trials);
        Collections.shuffle(trials, new Random(1));
        var shuffled = pooled(trials);
        assertEquals(
                inOrder.effects().get(0).studies(), shuffled.effects().get(0).studies());
        Tolerance.ITERATED.assertClose(
                inOrder.effects().get(0).oneStage().estimate(),
                shuffled.effects().get(0).oneStage().estimate());
    }

    @Test
    void turnsMinutesIntoHours() {
        var trials = soaks(4, 0.7);
        trials.add(trial(50, "cress", "{name: Soak, unit: min, levels: [0, 480]}", Map.of("Soak=480", 0.7)));
        var pooled = pooled(trials);
        assertEquals(1, pooled.effects().size());
        assertEquals(5, pooled.effects().get(0).trials());
        assertEquals("h", pooled.effects().get(0).unit());
        assertEquals(
                List.of(
                        "Taken as one factor: Soak, soak.",
                        "Levels of soak are given in h and min; here they are in h."),
                pooled.notes());
    }

    @Test
    void turnsPoundsAndKilogramsIntoWeightOnAnAreaWhereTraysHaveASize() {
        var trials = new ArrayList<SharedTrial>();
        // 2.5 kg on 50 x 25 cm are 20 kg/m2; so are 4.096 lb/ft2.
        trials.add(trial(1, "cress", "{name: cover, unit: kg, levels: [0, 2.5]}", ", tray_cm: [50, 25]", Map.of()));
        trials.add(trial(2, "cress", "{name: cover, unit: kg/m2, levels: [0, 20]}", Map.of()));
        trials.add(trial(3, "cress", "{name: cover, unit: kg/m2, levels: [0, 20]}", Map.of()));
        trials.add(trial(4, "cress", "{name: cover, unit: kg, levels: [0, 2.5]}", Map.of()));
        trials.add(trial(5, "cress", "{name: cover, levels: [0, 2.5]}", Map.of()));
        var pooled = pooled(trials);
        assertEquals(3, pooled.effects().get(0).trials());
        assertEquals("20", pooled.effects().get(0).level());
        assertEquals(
                List.of(
                        "it is in kg there, in kg/m2 elsewhere, and the plan doesn't say how large its trays are (tray_cm)",
                        "it has no unit there, and kg/m2 elsewhere"),
                pooled.leftOut().stream().map(Pooled.LeftOut::reason).toList());
    }

    @Test
    void differingNamesAreProposedAndOnlyTakenWhenAgreed() {
        var trials = soaks(3, 0.7);
        trials.add(trial(60, "cress", "{name: soaking, unit: h, levels: [0, 8]}", Map.of("soaking=8", 0.7)));
        assertEquals(
                List.of(3, 1),
                pooled(trials).effects().stream().map(Pooled.Effect::trials).toList());
        var proposal = Pooling.proposal(trials::forEach, PoolingChoices.USUAL);
        assertEquals(Map.of("soaking", "soak"), proposal.names().factors());
        assertEquals(List.of("the factor 'soaking' (1 trial) may be 'soak' (3 trials)"), proposal.reasons());
        assertEquals(
                List.of(4),
                Pooling.of(trials::forEach, with(proposal.names()), "0.1.0").effects().stream()
                        .map(Pooled.Effect::trials)
                        .toList());
    }

    @Test
    void levelsNearEachOtherAreProposedButNotTemperatures() {
        var trials = new ArrayList<SharedTrial>();
        for (int i = 1; i <= 4; i++) {
            var level = i == 4 ? "1.36" : "1.4";
            trials.add(trial(i, "cress", "{name: cover, unit: kg, levels: [0, " + level + "]}", Map.of()));
        }
        var proposal = Pooling.proposal(trials::forEach, PoolingChoices.USUAL);
        assertEquals(List.of("the level of cover '1.36' (1 trial) may be '1.4' (3 trials)"), proposal.reasons());
        assertEquals(Map.of("cover", Map.of("1.36", "1.4")), proposal.names().levels());
    }

    @Test
    void twoNamesOfOneTrialAreNeverProposedAsOne() {
        var trials = soaks(3, 0.7);
        trials.add(trial(61, "cress", SOAK + ", {name: soaks, unit: h, levels: [0, 8]}", Map.of("soak=8", 0.7)));
        assertTrue(Pooling.proposal(trials::forEach, PoolingChoices.USUAL)
                .reasons()
                .isEmpty());
    }

    @Test
    void unfairTrialsAreShownAndLeftOut() {
        var trials = soaks(4, 0.7);
        var fair = trials.get(0).contribution();
        var faulty = new Contribution(
                fair.title(),
                fair.protocol(),
                "another layout",
                fair.drawn(),
                fair.trays(),
                fair.conditions(),
                fair.tray(),
                fair.worthwhile(),
                fair.outcomes(),
                List.of(
                        new Finding("too small", List.of("soak"), "It is small."),
                        new Finding("confounded", List.of("soak", "shelf"), "Soak stood on one shelf.")));
        trials.add(new SharedTrial("unfair", Optional.empty(), faulty));
        var pooled = pooled(trials);
        assertEquals(4, pooled.trials());
        assertEquals(
                List.of(new Pooled.LeftOut("unfair", "Trial 1", "soak", "confounded: Soak stood on one shelf.")),
                pooled.leftOut());
        var despite = new PoolingChoices(
                CommonNames.NONE, Set.of("confounded"), OptionalDouble.empty(), 0.05, PoolingChoices.SOME_TRAYS);
        assertEquals(5, Pooling.of(trials::forEach, despite, "0.1.0").trials());
    }

    @Test
    void theSameTrialCountsOnce() {
        var trials = soaks(3, 0.7);
        trials.add(trials.get(0));
        trials.add(new SharedTrial("other pack", Optional.empty(), trials.get(1).contribution()));
        var pooled = pooled(trials);
        assertEquals(3, pooled.trials());
        assertEquals(2, pooled.leftOut().size());
        assertEquals("it is there twice", pooled.leftOut().get(0).reason());
    }

    @Test
    void cropsExplainThatEffectsDiffer() {
        var trials = new ArrayList<SharedTrial>();
        for (int i = 1; i <= 12; i++) {
            boolean beet = i % 2 == 0;
            trials.add(trial(i, beet ? "beet" : "cress", SOAK, Map.of("soak=8", beet ? 1.4 : 0.0)));
        }
        var effect = pooled(trials).effects().get(0);
        var crop = effect.moderators().get(0);
        assertEquals("crop", crop.name());
        assertEquals(
                List.of("beet", "cress"),
                crop.groups().stream().map(Pooled.Group::word).toList());
        assertTrue(crop.p() < 0.001 && crop.explained() > 0.9, crop.toString());
        assertTrue(
                crop.groups().get(0).low() > 1 && crop.groups().get(1).high() < 0.5,
                crop.groups().toString());
        assertTrue(crop.sentence().contains("Nobody dealt crop out to farms by chance"), crop.sentence());
        assertTrue(effect.predictionLow() < 0 && effect.predictionHigh() > 1.4, "farms differ");
        assertTrue(effect.i2() > 0.8, "most of the spread lies between trials");
    }

    @Test
    void numbersAlsoGetASlope() {
        var trials = new ArrayList<SharedTrial>();
        for (int i = 1; i <= 6; i++) {
            int most = i % 2 == 0 ? 8 : 12;
            trials.add(trial(
                    i,
                    "cress",
                    "{name: soak, unit: h, levels: [0, 4, " + most + "]}",
                    Map.of("soak=4", 0.4, "soak=8", 0.8, "soak=12", 1.2)));
        }
        var pooled = pooled(trials);
        assertEquals(
                List.of("4", "8", "12"),
                pooled.effects().stream().map(Pooled.Effect::level).toList());
        assertEquals(
                List.of(6, 3, 3),
                pooled.effects().stream().map(Pooled.Effect::trials).toList());
        var slope = pooled.slopes().get(0);
        assertTrue(slope.low() < 0.1 && 0.1 < slope.high(), slope.toString());
    }

    @Test
    void nothingToPoolIsSaid() {
        var pooled = pooled(List.of());
        assertEquals(0, pooled.trials());
        assertTrue(pooled.effects().isEmpty());
    }
}
