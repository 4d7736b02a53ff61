package org.fairtray.statistics.logistic;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/** Counts as a fitted mixed logistic model would have them: intercepts drawn anew, then each seed. */
final class SimulatedCounts {
    private final double[] linear;
    private final long[] trials;
    private final List<Grouping> groupings;
    private final double[] deviations;

    SimulatedCounts(ModelMatrix model, MixedLogisticFit fit, List<Count> counts, List<Grouping> groupings) {
        this.linear = new double[counts.size()];
        for (int i = 0; i < linear.length; i++) {
            linear[i] = fit.estimates().combination(model.row(i));
        }
        this.trials = counts.stream().mapToLong(Count::trials).toArray();
        this.groupings = groupings;
        this.deviations = fit.standardDeviations();
    }

    List<Count> draw(UniformRandomProvider random) {
        double[] logOdds = linear.clone();
        for (int g = 0; g < deviations.length; g++) {
            if (deviations[g] > 0) {
                addIntercepts(groupings.get(g), deviations[g], random, logOdds);
            }
        }
        var drawn = new ArrayList<Count>();
        for (int i = 0; i < logOdds.length; i++) {
            drawn.add(count(trials[i], LogisticFit.rate(logOdds[i]), random));
        }
        return drawn;
    }

    private static void addIntercepts(
            Grouping grouping, double deviation, UniformRandomProvider random, double[] logOdds) {
        var intercepts = new double[grouping.groups()];
        for (int j = 0; j < intercepts.length; j++) {
            intercepts[j] = deviation * normal(random);
        }
        int[] groups = grouping.of();
        for (int i = 0; i < groups.length; i++) {
            logOdds[i] += intercepts[groups[i]];
        }
    }

    private static Count count(long trials, double rate, UniformRandomProvider random) {
        long successes = 0;
        for (long seed = 0; seed < trials; seed++) {
            successes += random.nextDouble() < rate ? 1 : 0;
        }
        return new Count(successes, trials);
    }

    /** A standard normal number by Box and Muller (1958), Annals of Mathematical Statistics 29, 610-611. */
    private static double normal(UniformRandomProvider random) {
        double u = 1 - random.nextDouble();
        return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random.nextDouble());
    }
}
