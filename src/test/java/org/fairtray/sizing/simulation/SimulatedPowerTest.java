package org.fairtray.sizing.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.fairtray.design.Term;
import org.fairtray.sizing.StrataPower;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** Powers beside those of another program that simulated the same four plans. */
class SimulatedPowerTest {
    private static final int SIMULATIONS = 2_000;

    private static final Map<String, Simulations> CASES = Map.of(
            "cover-on-stacks",
            Simulations.of(
                    "{name: soak, levels: [0, 8]}, {name: mat, levels: [hemp, coir]},"
                            + " {name: cover, levels: [0, 3], applied_to: stack}",
                    "{name: shelf, count: 2}, {name: stack, count: 4}, {name: spot, count: 4}",
                    100,
                    "control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {shelf: 0.2, stack: 0.3}"),
            "latin-mats",
            Simulations.of(
                    "{name: mat, levels: [a, b, c, d]}",
                    "{name: shelf, count: 4}, {name: spot, count: 4, across: shelf}",
                    80,
                    "control_rate: 0.3, worthwhile: 0.2, tray_correlation: 0.03, place_sd: {shelf: 0.3, spot: 0.2}"),
            "mats-in-blocks",
            Simulations.of(
                    "{name: mat, levels: [hemp, coir, pad]}",
                    "{name: stack, count: 5}, {name: spot, count: 3}",
                    100,
                    "control_rate: 0.5, worthwhile: 0.15, tray_correlation: 0.02, place_sd: {stack: 0.3}"),
            "two-soaks",
            Simulations.of(
                    "{name: soak, levels: [0, 8]}",
                    "{name: spot, count: 12}",
                    50,
                    "control_rate: 0.35, worthwhile: 0.2, tray_correlation: 0.05"));

    /** Within four standard errors of the difference of two shares. */
    @ParameterizedTest
    @CsvFileSource(resources = "power-simulated.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(String name, String term, String by, double expected, int simulations) {
        var judge = Judge.valueOf(by.toUpperCase(Locale.ROOT));
        var found = CASES.get(name)
                .run(List.of(new Term(List.of(term))), List.of(judge), new Precision(SIMULATIONS, 0), 2)
                .get(0);
        assertEquals(SIMULATIONS, found.simulations());
        double standardError = Math.sqrt(expected * (1 - expected) * (1.0 / SIMULATIONS + 1.0 / simulations));
        assertEquals(expected, found.power().orElseThrow(), 4 * standardError);
    }

    /** With thousands of seeds a tray, angles are as good as normal with one variance: the closed form is then all but exact. */
    @ParameterizedTest
    @CsvSource({"soak, 0.02", "soak, 0.03", "cover, 0.06", "cover, 0.1"})
    void theAnalysisOfVarianceFindsWhatTheClosedFormSays(String factor, double worthwhile) {
        int simulations = 10_000;
        var stacks = Simulations.of(
                "{name: soak, levels: [0, 8]}, {name: cover, levels: [0, 3], applied_to: stack}",
                "{name: stack, count: 6}, {name: spot, count: 4}",
                5_000,
                "control_rate: 0.5, worthwhile: " + worthwhile + ", tray_correlation: 0.002, place_sd: {stack: 0.1}");
        double expected = StrataPower.of(
                        stacks.structure(), stacks.structure().trial().factor(factor))
                .orElseThrow()
                .power(worthwhile);
        assertTrue(expected > 0.3 && expected < 0.95, "says something: " + expected);
        var found = stacks.run(
                        List.of(new Term(List.of(factor))), List.of(Judge.ANOVA), new Precision(simulations, 0), 2)
                .get(0);
        double standardError = Math.sqrt(expected * (1 - expected) / simulations);
        assertEquals(expected, found.power().orElseThrow(), 4 * standardError);
    }

    /** Where nothing differs the analysis of variance errs as often as it says. */
    @Test
    void withoutADifferenceItIsAlpha() {
        int simulations = 10_000;
        var soaks = Simulations.of(
                "{name: soak, levels: [0, 8]}",
                "{name: stack, count: 3}, {name: spot, count: 4}",
                100,
                "control_rate: 0.5, worthwhile: 1e-9, tray_correlation: 0.02, place_sd: {stack: 0.3}");
        var found = soaks.run(soaks.structure().terms(), List.of(Judge.ANOVA), new Precision(simulations, 0), 2)
                .get(0);
        assertEquals(0.05, found.power().orElseThrow(), 4 * Math.sqrt(0.05 * 0.95 / simulations));
    }
}
