package org.fairtray.trial;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What things cost.
 *
 * @param currency a currency's code, such as EUR
 * @param tray money for one tray with its medium
 * @param seedPerGram money for a gram of seed
 * @param labourPerHour money for an hour of work
 * @param minutesPerFrame minutes to count one frame once
 */
public record Costs(
        Optional<String> currency,
        OptionalDouble tray,
        OptionalDouble seedPerGram,
        OptionalDouble labourPerHour,
        OptionalDouble minutesPerFrame) {

    /** Nothing said. */
    public static Costs none() {
        return new Costs(
                Optional.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }
}
