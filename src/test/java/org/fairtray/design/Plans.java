package org.fairtray.design;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.Trials;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** Small plans for tests, written the short way. */
final class Plans {
    private Plans() {}

    /** A factor such as {@code "soak@tray: 0 8"}. */
    static Factor factor(String text) {
        var parts = text.split(": ", -1);
        var name = parts[0].split("@", -1);
        return new Factor(name[0], Optional.empty(), List.of(parts[1].split(" ", -1)), name[1]);
    }

    /** A place such as {@code "shelf 2 / stack 3 / height 4 across stack"}. */
    static Place place(String text) {
        return Trials.place(text.split(" / ", -1));
    }

    static Trial plan(String place, String... factors) {
        return plan(place, OptionalInt.empty(), List.of(), factors);
    }

    static Trial plan(String place, OptionalInt replicates, List<Treatment> never, String... factors) {
        return new Trial(
                "A test",
                Optional.empty(),
                Optional.empty(),
                List.of(factors).stream().map(Plans::factor).toList(),
                new Treatment(Map.of()),
                never,
                place(place),
                Map.of(),
                List.of(),
                replicates,
                new Counting(List.of(1), 1, 50, true),
                List.of(new Outcome.Count("germinated", "sown", 1)),
                AnalysisChoices.USUAL,
                Expectations.none(),
                Optional.empty(),
                OptionalDouble.empty(),
                Optional.empty(),
                OptionalInt.empty());
    }
}
