package org.fairtray.sizing.spending;

import java.util.OptionalDouble;

/**
 * What there is to spend.
 *
 * @param money in the plan's currency
 * @param minutesADay to count
 * @param grams of seed
 */
public record Limits(OptionalDouble money, OptionalDouble minutesADay, OptionalDouble grams) {
    /** No limit but the place. */
    public static final Limits NONE =
            new Limits(OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());

    static boolean within(OptionalDouble limit, double value) {
        return limit.isEmpty() || value <= limit.getAsDouble() + 1e-9;
    }
}
