package org.fairtray.sizing.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.fairtray.Trials;
import org.fairtray.analysis.Inference;
import org.fairtray.design.Term;
import org.fairtray.trial.Expectations;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PowerSimulationTest {
    private static final String STACKS = "{name: stack, count: 4}, {name: spot, count: 6}";
    private static final String SPLIT =
            "{name: soak, levels: [0, 8]}, {name: mat, levels: [a, b, c]}, {name: cover, levels: [0, 3], applied_to: stack}";
    private static final String EXPECTED =
            "control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.03, place_sd: {stack: 0.2}";
    private static final Precision FEW = new Precision(150, 0);

    private static Simulations split() {
        return Simulations.of(SPLIT, STACKS, 60, EXPECTED);
    }

    private static Simulations soaks(String expect) {
        return Simulations.of("{name: soak, levels: [0, 8]}", "{name: spot, count: 12}", 50, expect);
    }

    private static SimulatedPower only(Simulations simulations, Judge judge, Precision precision) {
        return simulations
                .run(simulations.structure().terms(), List.of(judge), precision, 1)
                .get(0);
    }

    @Test
    void theNumberOfThreadsChangesNothing() {
        var split = split();
        var terms = split.structure().terms();
        var judges = EnumSet.allOf(Judge.class);
        var precision = new Precision(23, 0);
        var one = split.run(terms, judges, precision, 1);
        assertEquals(terms.size() * judges.size(), one.size());
        assertEquals(one, split.run(terms, judges, precision, 2));
        assertEquals(one, split.run(terms, judges, precision, 7));
    }

    /** The whole analysis of each trial, its verdicts read as words. */
    @Test
    void theVerdictCountedIsTheOneThatTheAnalysisGives() {
        var split = split();
        var expected = split.structure().trial().expectations();
        var cover = new Term(List.of("cover"));
        var trials = new NumberedTrials(split.structure(), expected, 1);
        double[] rates = Scenario.of(split.structure(), cover, expected).rates();
        int changed = 0;
        for (int number = 0; number < 40; number++) {
            var verdicts = Inference.ofCounts(split.structure(), Trials.THROUGH, trials.draw(number, rates))
                    .verdicts();
            changed += verdicts.stream()
                            .anyMatch(v ->
                                    v.factor().equals("cover") && v.verdict().equals("changed"))
                    ? 1
                    : 0;
        }
        var counted = split.run(List.of(cover), List.of(Judge.VERDICT), new Precision(40, 0), 2);
        assertEquals(changed, counted.get(0).found());
        assertTrue(changed > 5 && changed < 35, "says something: " + changed);
    }

    @Test
    void neitherOtherTermsNorOtherJudgesChangeAnything() {
        var split = split();
        var mat = new Term(List.of("mat"));
        var all = split.run(split.structure().terms(), EnumSet.of(Judge.ANOVA, Judge.LOGISTIC), FEW, 2);
        var alone = split.run(List.of(mat), List.of(Judge.LOGISTIC), FEW, 2);
        assertEquals(
                alone,
                all.stream()
                        .filter(p -> p.term().equals("mat") && p.by() == Judge.LOGISTIC)
                        .toList());
    }

    @Test
    void anotherSeedIsOtherLuck() {
        var split = split();
        var other =
                PowerSimulation.of(split.structure(), split.structure().trial().expectations(), 2);
        var precision = new Precision(1000, 0);
        var terms = split.structure().terms();
        assertTrue(!split.run(terms, List.of(Judge.ANOVA), precision, 2)
                .equals(other.run(terms, List.of(Judge.ANOVA), precision, 2, (t, d) -> {}, () -> false)));
    }

    @Test
    void itStopsAtTheEndOfARoundWhenEveryIntervalIsNarrowEnough() {
        var precision = new Precision(10_000, 0.05);
        var found = only(soaks("control_rate: 0.35, worthwhile: 0.2, tray_correlation: 0.05"), Judge.ANOVA, precision);
        assertEquals(0, found.simulations() % PowerSimulation.ROUND);
        assertTrue(found.simulations() < precision.most());
        assertTrue(found.isWithin(0.05));
        double before = found.simulations() - PowerSimulation.ROUND;
        double p = found.power().orElseThrow();
        assertTrue(1.96 * Math.sqrt(p * (1 - p) / before) > 0.045, "a round earlier it was too wide: " + found);
    }

    @Test
    void theLastRoundMayBeShort() {
        var found = only(soaks("control_rate: 0.3, worthwhile: 0.2"), Judge.ANOVA, new Precision(250, 0));
        assertEquals(250, found.simulations());
    }

    @Test
    void progressIsToldAfterEachRound() {
        var told = new ArrayList<String>();
        var soaks = soaks("control_rate: 0.35, worthwhile: 0.2");
        soaks.simulation()
                .run(
                        soaks.structure().terms(),
                        List.of(Judge.ANOVA),
                        new Precision(250, 0),
                        2,
                        (term, done) -> told.add(term + " " + done),
                        () -> false);
        assertEquals(List.of("soak 100", "soak 200", "soak 250"), told);
    }

    @ParameterizedTest
    @CsvSource({"1", "2"})
    void stoppedItGivesTheRoundsThatWereFinished(int threads) {
        var split = split();
        var asked = new AtomicInteger();
        var terms = split.structure().terms();
        int inTwoRounds = 2 * PowerSimulation.ROUND * terms.size();
        var found = split.simulation()
                .run(
                        terms,
                        List.of(Judge.ANOVA),
                        new Precision(10_000, 0),
                        threads,
                        (t, d) -> {},
                        () -> asked.incrementAndGet() > inTwoRounds + 50);
        assertEquals(split.run(terms, List.of(Judge.ANOVA), new Precision(200, 0), 1), found);
    }

    @Test
    void interruptedItGivesWhatItHasAndTheThreadStillKnows() {
        Thread.currentThread().interrupt();
        var found = only(soaks("control_rate: 0.3, worthwhile: 0.2"), Judge.ANOVA, FEW);
        assertTrue(Thread.interrupted());
        assertEquals(new SimulatedPower("soak", Judge.ANOVA, 0, 0, Optional.empty()), found);
        assertEquals(Optional.empty(), found.power());
        assertEquals(Optional.empty(), found.low());
    }

    @ParameterizedTest
    @CsvSource({"0, 1e-9", "1, 0.5", "0.9999, 1e-9"})
    void nothingIsFoundWhereNothingDiffers(double rate, double worthwhile) {
        var expected = "control_rate: " + rate + ", worthwhile: " + worthwhile;
        for (Judge judge : Judge.values()) {
            assertEquals(0, only(soaks(expected), judge, FEW).found(), judge.label());
        }
    }

    /** No seed of the control and every seed of the other level: odds are infinite, and trays treated alike don't differ. */
    @ParameterizedTest
    @CsvSource({"LOGISTIC, 150", "ANOVA, 0", "VERDICT, 150"})
    void allAgainstNothing(Judge judge, int found) {
        assertEquals(
                found,
                only(soaks("control_rate: 0, worthwhile: 0.9999999999999999"), judge, FEW)
                        .found());
    }

    @Test
    void aFactorThatNoStratumTestsHasNoTestAndAReason() {
        var stacks = Simulations.of(
                "{name: soak, levels: [0, 8]}, {name: cover, levels: [0, 3], applied_to: stack}",
                "{name: stack, count: 2}, {name: spot, count: 6}",
                50,
                "control_rate: 0.3, worthwhile: 0.2");
        for (Judge judge : Judge.values()) {
            var found = stacks.run(List.of(new Term(List.of("cover"))), List.of(judge), FEW, 2)
                    .get(0);
            assertEquals(0, found.simulations());
            assertEquals(Optional.empty(), found.power());
            assertEquals(
                    Optional.of(
                            "No stack with the same treatment is repeated, so a difference between levels of cover can't be"
                                    + " told from the difference between any two stacks treated alike."),
                    found.noTest());
        }
    }

    @Test
    void oneTrayOfEachTestsNothing() {
        var pair = Simulations.of(
                "{name: soak, levels: [0, 8]}", "{name: spot, count: 2}", 50, "control_rate: 0.3, worthwhile: 0.2");
        for (Judge judge : Judge.values()) {
            var found = only(pair, judge, FEW);
            assertEquals(0, found.simulations());
            assertTrue(found.noTest().isPresent());
        }
    }

    /** Places so far apart and seeds so alike that nearly every tray comes out at 0 or 100 %: odds are often infinite. */
    @Test
    void wildGuessesGiveAPowerToo() {
        var wild = Simulations.of(
                "{name: soak, levels: [0, 8]}, {name: mat, levels: [a, b, c]}",
                "{name: stack, count: 2}, {name: spot, count: 6}",
                20,
                "control_rate: 0.02, worthwhile: 0.98, tray_correlation: 0.95, place_sd: {stack: 60, tray: 5}");
        var found = wild.run(wild.structure().terms(), EnumSet.allOf(Judge.class), new Precision(60, 0), 2);
        assertEquals(9, found.size());
        for (var power : found) {
            assertEquals(60, power.simulations());
            double share = power.power().orElseThrow();
            assertTrue(
                    power.low().orElseThrow() <= share && share <= power.high().orElseThrow(), power.toString());
        }
    }

    @Test
    void whatIsWorthwhileHasToBeSaid() {
        var structure = split().structure();
        assertThrows(IllegalArgumentException.class, () -> PowerSimulation.of(structure, Expectations.none(), 1));
        assertThrows(IllegalArgumentException.class, () -> new Precision(0, 0.1));
        assertThrows(IllegalArgumentException.class, () -> new Precision(10, Double.NaN));
    }
}
