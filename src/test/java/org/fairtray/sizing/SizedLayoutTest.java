package org.fairtray.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Closed forms of whole layouts. Simulated values are from R 4.2.2: beta-binomial counts by rbeta and rbinom, analysed by lm
 * or t.test; 4,000 trials of an interaction, 20,000 of everything else.
 */
class SizedLayoutTest {
    private static final double APPROXIMATE = 0.03;

    static SizedLayout sized(String plan) {
        var text = "{format: 1, trial: A, counting: {days: [6], seeds_per_frame: 100},"
                + " outcomes: [{name: through, kind: count, day: 6}], " + plan + "}";
        var trial = TrialFiles.of(Map.of("plan.yaml", text.getBytes(StandardCharsets.UTF_8)))
                .trial();
        return SizedLayout.of(trial, Randomisation.of(trial).draw(Generator.of(1)));
    }

    private static String soaks(int trays, String more) {
        return "factors: [{name: soak, levels: [0, 8]}], place: [{name: spot, count: " + trays + "}], " + more;
    }

    private static ClosedForm only(SizedLayout sized) {
        return sized.closedForm().get(0);
    }

    @ParameterizedTest
    @CsvSource({"angular, 0.670", "proportion, 0.677", "logit, 0.668"})
    void everyScale(String scale, double simulated) {
        var sized = sized(soaks(
                12,
                "analysis: {anova_scale: " + scale
                        + "}, expect: {control_rate: 0.35, worthwhile: 0.2, tray_correlation: 0.05}"));
        var power = sized.at(List.of(new Option(1, 1, 50))).get(0).get(0).power();
        assertEquals(simulated, power, APPROXIMATE);
    }

    /** Sixteen trays that nothing was done to: the width of the interval of a difference, and how often it lies within. */
    @Test
    void widthAndEquivalence() {
        var closed = only(sized(soaks(16, "expect: {control_rate: 0.35, worthwhile: 0.10, tray_correlation: 0.02}")));
        assertEquals(0.0866, closed.halfWidth(), 0.002);
        assertEquals(0.272, closed.noChange(), APPROXIMATE);
    }

    @ParameterizedTest
    @CsvSource({"'0, 8', 24, 0.652", "'0, 4, 8', 30, 0.566"})
    void interactionsAreOneRaisedCombination(String levels, int trays, double simulated) {
        var sized = sized("factors: [{name: soak, levels: [" + levels + "]}, {name: mat, levels: [hemp, coir]}],"
                + " place: [{name: spot, count: " + trays
                + "}], expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.03}");
        var closed = sized.closedForm().get(2);
        assertEquals("soak × mat", closed.term());
        assertEquals(simulated, closed.power(), APPROXIMATE);
        assertNull(closed.halfWidth());
    }

    /** With independent seeds the tray tells what its seeds tell, less what few trays cost. */
    @Test
    void twoProportionsAreTheLimitOfManyTrays() {
        var closed = only(sized(soaks(400, "expect: {control_rate: 0.35, worthwhile: 0.02, tray_correlation: 0}")));
        assertEquals(closed.twoProportions(), closed.power(), 0.002);
        var few = only(sized(soaks(6, "expect: {control_rate: 0.35, worthwhile: 0.15, tray_correlation: 0}")));
        assertTrue(few.twoProportions() > few.power() + 0.05, few::toString);
    }

    @Test
    void whatIsNeededIsEnoughAndOneLessIsNot() {
        var sized = sized(soaks(12, "expect: {control_rate: 0.35, worthwhile: 0.15, tray_correlation: 0.05}"));
        var needed = sized.sizing().needed().get(0);
        var power = sized.power(sized.structure().trial().factor("soak")).orElseThrow();
        int units = needed.neededPerLevel();
        assertTrue(power.with(sized.option().repeated(units / 6.0)).power(0.15) >= 0.8);
        assertTrue(power.with(sized.option().repeated((units - 1) / 6.0)).power(0.15) < 0.8);
        assertEquals(2 * units, needed.trays());
        assertEquals(false, needed.fits());
        int seeds = power.seedsNeeded(0.23, 0.8, 400).orElseThrow();
        assertTrue(power.with(sized.option().withSeeds(seeds)).power(0.23) >= 0.8);
        assertTrue(power.with(sized.option().withSeeds(seeds - 1)).power(0.23) < 0.8);
    }

    @Test
    void adviceSaysWhatTheRackCantHold() {
        var advice = sized(soaks(12, "expect: {control_rate: 0.35, worthwhile: 0.15, tray_correlation: 0.05}"))
                .sizing()
                .advice();
        assertEquals(
                "Too small to see a change of 15 points in 80 % of such trials for soak. That takes about 24 trays instead"
                        + " of 12, more than the plan's place holds (12 trays): a larger one, or 2 runs of it one after the"
                        + " other, with the run as the outermost level of place. More seeds in the same trays would not do."
                        + " As it is, soak has to make 22 points to be seen as often.",
                advice);
        assertTrue(sized(soaks(
                        24, "replicates: 6, expect: {control_rate: 0.35, worthwhile: 0.15, tray_correlation: 0.05}"))
                .sizing()
                .advice()
                .contains("24 trays instead of 12, which the plan's place holds."));
    }

    @Test
    void enoughSaysWhatCouldBeSaved() {
        assertEquals(
                "Enough as it is: every factor would show a change of 15 points in 80 % of such trials or more. So would 18"
                        + " seeds in a frame instead of 100, or 26 trays instead of 40.",
                sized("factors: [{name: lot, levels: [a, b]}], place: [{name: spot, count: 40}], "
                                + "expect: {control_rate: 0.5, worthwhile: 0.15, tray_correlation: 0.06, power: 0.8}")
                        .sizing()
                        .advice());
    }

    @Test
    void stacksAreAskedForWhereStacksAreTreated() {
        var sizing = sized(
                        "factors: [{name: cover, levels: [0, 3], applied_to: stack}],"
                                + " place: [{name: stack, count: 8}, {name: spot, count: 4}],"
                                + " expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {stack: 0.3}}")
                .sizing();
        assertEquals("stack", sizing.needed().get(0).unit());
        assertTrue(sizing.advice().contains(" × stack instead of 8 ("), sizing::advice);
    }

    /** What the plan says nothing of is usual, and says so; places are guessed only with nothing said of trays. */
    @Test
    void withoutExpectationsDefaultsAreNamed() {
        String plan =
                "factors: [{name: soak, levels: [0, 8]}], place: [{name: shelf, count: 3}, {name: spot, count: 4}]";
        var nothing = sized(plan).assumptions();
        assertEquals(0.5, nothing.controlRate());
        assertEquals(Map.of("shelf", 0.2), nothing.placeSd());
        assertEquals(
                List.of("control_rate", "worthwhile", "tray_correlation", "place_sd.shelf", "power"),
                nothing.sources().stream().map(Assumption::key).toList());
        assertTrue(nothing.sources().stream().noneMatch(Assumption::planned));
        var some = sized(plan + ", expect: {tray_correlation: 0.02}").assumptions();
        assertEquals(Map.of(), some.placeSd());
        assertEquals(
                List.of("tray_correlation"),
                some.sources().stream()
                        .filter(Assumption::planned)
                        .map(Assumption::key)
                        .toList());
    }

    @Test
    void theGuessOfTheCorrelationIsTurnedOver() {
        var sizing = sized(soaks(12, "expect: {control_rate: 0.35, worthwhile: 0.2, tray_correlation: 0.03}"))
                .sizing();
        var correlations = sizing.sensitivity().stream()
                .map(Sizing.Sensitivity::trayCorrelation)
                .toList();
        assertEquals(List.of(0.0, 0.01, 0.02, 0.03, 0.05, 0.1, 0.2), correlations);
        assertEquals(
                sizing.closedForm().get(0).power(),
                sizing.sensitivity().get(3).terms().get(0).power());
        assertTrue(sizing.sensitivity().get(0).terms().get(0).power()
                > sizing.sensitivity().get(6).terms().get(0).power());
    }
}
