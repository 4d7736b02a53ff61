package org.fairtray.trial;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * What the grower expects and cares about, said before sowing.
 *
 * @param controlRate the rate under the control, a proportion
 * @param worthwhile the smallest difference worth acting on, a proportion (0.15 is 15 percentage points)
 * @param trayCorrelation intraclass correlation of seeds in a tray
 * @param placeSd standard deviation between units of a place level, log-odds, by level name
 * @param power the power wanted, a proportion
 */
public record Expectations(
        OptionalDouble controlRate,
        OptionalDouble worthwhile,
        OptionalDouble trayCorrelation,
        Map<String, Double> placeSd,
        OptionalDouble power) {

    public Expectations {
        placeSd = Collections.unmodifiableMap(new LinkedHashMap<>(placeSd));
    }

    /** Nothing expected. */
    public static Expectations none() {
        return new Expectations(
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Map.of(),
                OptionalDouble.empty());
    }
}
