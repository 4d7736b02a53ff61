package org.fairtray.analysis;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.findings.Cost;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Costs;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Trial;

/**
 * What a thousand seedlings cost with each treatment, where the plan gives costs and the outcome counts seeds sown:
 *
 * <pre>  (tray + seeds x grams per 1000 / 1000 x money per gram + frames x counts x minutes / 60 x wage) / (seeds x rate) x 1000</pre>
 *
 * A tray holds the seeds that were counted in it, on average over the treatment's trays; it is counted on every reading
 * day up to the outcome's. What the plan doesn't give costs nothing here. Grams are per 1000 seeds as sown, so clusters
 * are counted as sown too. The interval is that of the rate alone.
 */
final class Costing {
    private Costing() {}

    /** Costs by treatment; empty where the plan gives none, or the outcome is not out of the seeds sown. */
    static List<Cost> of(Trial trial, Outcome outcome, List<? extends Findings.Summary> summaries) {
        boolean ofSown = outcome.match(c -> c.of().equals("sown"), m -> false);
        return trial.costs()
                .filter(c -> ofSown)
                .map(costs -> summaries.stream()
                        .map(Findings.CountSummary.class::cast)
                        .flatMap(s -> cost(trial, costs, outcome.day(), s).stream())
                        .toList())
                .orElse(List.of());
    }

    private static Optional<Cost> cost(Trial trial, Costs costs, int day, Findings.CountSummary summary) {
        double seeds = (double) summary.of() / summary.trays();
        var seed = seed(trial, costs, seeds);
        var labour = labour(trial, costs, day);
        if (costs.tray().isEmpty() && seed.isEmpty() && labour.isEmpty()) {
            return Optional.empty();
        }
        double tray = costs.tray().orElse(0) + seed.orElse(0) + labour.orElse(0);
        boolean some = summary.successes() > 0;
        return Optional.of(new Cost(
                summary.treatment(),
                costs.currency().orElse(null),
                tray,
                seeds * summary.rate(),
                some ? perThousand(tray, seeds * summary.rate()) : null,
                perThousand(tray, seeds * summary.high()),
                some && summary.low() > 0 ? perThousand(tray, seeds * summary.low()) : null));
    }

    private static OptionalDouble seed(Trial trial, Costs costs, double seeds) {
        var weight = trial.crop().map(c -> c.thousandSeedWeight()).orElse(OptionalDouble.empty());
        return weight.isPresent() && costs.seedPerGram().isPresent()
                ? OptionalDouble.of(seeds
                        * weight.getAsDouble()
                        / 1000
                        * costs.seedPerGram().getAsDouble())
                : OptionalDouble.empty();
    }

    private static OptionalDouble labour(Trial trial, Costs costs, int day) {
        if (costs.labourPerHour().isEmpty() || costs.minutesPerFrame().isEmpty()) {
            return OptionalDouble.empty();
        }
        long counts = trial.counting().days().stream().filter(d -> d <= day).count();
        double minutes =
                costs.minutesPerFrame().getAsDouble() * trial.counting().framesPerTray() * counts;
        return OptionalDouble.of(minutes / 60 * costs.labourPerHour().getAsDouble());
    }

    private static Double perThousand(double tray, double seedlings) {
        return tray / seedlings * 1000;
    }
}
