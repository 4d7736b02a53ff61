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
import org.fairtray.trial.Restriction;
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

    /** The same plan with restrictions such as {@code "keep_apart treatment"} or {@code "even_over spot soak"}. */
    static Trial restricted(Trial trial, String... restrictions) {
        return new Trial(
                trial.title(),
                trial.question(),
                trial.crop(),
                trial.factors(),
                trial.control(),
                trial.never(),
                trial.place(),
                trial.definitions(),
                trial.batches(),
                trial.replicates(),
                trial.counting(),
                trial.outcomes(),
                trial.choices(),
                trial.expectations(),
                trial.costs(),
                trial.gramsPerTray(),
                trial.rotation(),
                trial.uncoverDay(),
                List.of(restrictions).stream().map(Plans::restriction).toList(),
                trial.conditions());
    }

    private static Restriction restriction(String text) {
        var words = text.split(" ", -1);
        return switch (words[0]) {
            case "keep_apart" -> new Restriction(Restriction.Kind.APART, words[1], Optional.empty());
            case "even_over" -> new Restriction(Restriction.Kind.EVEN, words[2], Optional.of(words[1]));
            default -> new Restriction(Restriction.Kind.EDGES, words[1], Optional.empty());
        };
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
                OptionalInt.empty(),
                List.of(),
                Map.of());
    }
}
