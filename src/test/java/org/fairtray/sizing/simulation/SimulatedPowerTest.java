package org.fairtray.sizing.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.fairtray.design.Term;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

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
}
