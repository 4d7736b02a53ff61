package org.fairtray.sizing.spending;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.fairtray.sizing.Option;
import org.fairtray.trial.Costs;
import org.fairtray.trial.Trial;

/**
 * What a plan costs as it is: only what it gives a price or a time of, nothing taken for granted.
 *
 * @param currency the plan's, or "money"
 * @param items what costs, none where nothing is known
 * @param minutesADay to count every frame once; empty where the plan doesn't say how long one takes
 * @param grams of seed in all trays; empty where nothing says what a seed or a tray's seed weighs
 * @param missing what isn't in it though the plan speaks of costs, in a sentence
 */
public record Bill(
        String currency,
        List<Item> items,
        Optional<Double> minutesADay,
        Optional<Double> grams,
        Optional<String> missing) {

    public Bill {
        items = List.copyOf(items);
    }

    /** A part of a bill. */
    public record Item(String what, double amount) {}

    /** The bill of a plan that has so many trays. */
    public static Bill of(Trial trial, int trays) {
        var said = trial.costs().orElseGet(Costs::none);
        var costs = new TrayCosts(trial, OptionalDouble.empty());
        var option = Option.of(trial.counting());
        var grams = boxed(costs.grams(option)).map(g -> g * trays);
        var minutes = boxed(said.minutesPerFrame()).map(m -> costs.minutes(option) * trays);
        var days = trial.counting().days().size();
        var items = new ArrayList<Item>();
        boxed(said.tray()).ifPresent(t -> items.add(new Item(trays + " trays with their medium", t * trays)));
        boxed(said.seedPerGram()).ifPresent(p -> grams.ifPresent(g -> items.add(new Item("seed", g * p))));
        boxed(said.labourPerHour())
                .ifPresent(w -> minutes.ifPresent(m -> items.add(
                        new Item("counting on " + days + (days == 1 ? " day" : " days"), m * days * w / 60))));
        return new Bill(
                costs.currency(), items, minutes, grams, trial.costs().flatMap(c -> missing(c, grams.isPresent())));
    }

    /** All of it. */
    public double total() {
        return items.stream().mapToDouble(Item::amount).sum();
    }

    private static Optional<Double> boxed(OptionalDouble value) {
        return value.isPresent() ? Optional.of(value.getAsDouble()) : Optional.empty();
    }

    private static Optional<String> missing(Costs costs, boolean weighed) {
        var missing = Stream.of(
                        costs.tray().isPresent() ? "" : "trays (tray)",
                        costs.seedPerGram().isPresent()
                                ? weighed ? "" : "seed (its weight isn’t known)"
                                : "seed (seed_per_g)",
                        costs.labourPerHour().isPresent() ? "" : "an hour’s work (labour_per_hour)",
                        costs.minutesPerFrame().isPresent() ? "" : "the time of counting (minutes_per_frame)")
                .filter(m -> !m.isEmpty())
                .toList();
        return missing.isEmpty()
                ? Optional.empty()
                : Optional.of("Not in the costs, because the plan doesn’t say it: " + String.join(", ", missing) + ".");
    }
}
