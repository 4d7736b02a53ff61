package org.fairtray.trial;

import java.util.function.Function;

/** What is read off a tray to answer the question. */
public sealed interface Outcome {

    /** The column of the readings it stands in. */
    String name();

    /** The day of the reading that counts. */
    int day();

    /** One branch for each kind, so that the build stops where a new kind is not handled. */
    <T> T match(Function<Count, T> count, Function<Measure, T> measure);

    /**
     * So many of so many: roots through of seeds sown.
     *
     * @param of {@code sown} or {@code germinated}
     */
    record Count(String name, String of, int day) implements Outcome {
        @Override
        public <T> T match(Function<Count, T> count, Function<Measure, T> measure) {
            return count.apply(this);
        }
    }

    /** A measurement in a unit that its name gives, such as height_mm. */
    record Measure(String name, int day) implements Outcome {
        @Override
        public <T> T match(Function<Count, T> count, Function<Measure, T> measure) {
            return measure.apply(this);
        }
    }
}
