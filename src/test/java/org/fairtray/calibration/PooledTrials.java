package org.fairtray.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.design.Generator;
import org.fairtray.pooling.Pooling;
import org.fairtray.pooling.PoolingChoices;
import org.fairtray.pooling.SharedTrial;
import org.fairtray.pooling.contribution.Contribution;
import org.fairtray.pooling.contribution.Shared;

/**
 * How often pooled intervals hold what they should: networks of farms are invented, each with a trial of twelve trays and an
 * effect of its own, and pooled as {@code pool} does. Run by hand: main(networks); docs/calibration.md has what came of it.
 */
final class PooledTrials {
    private static final String PLAN = """
            format: 1
            trial: Farm %d
            factors: [{name: soak, unit: h, levels: [0, 8]}]
            place: [{name: shelf, count: 2}, {name: spot, count: 6}]
            counting: {days: [5], seeds_per_frame: 60}
            outcomes: [{name: through, kind: count, of: sown, day: 5}]
            """;

    private int changed;
    private int held;
    private int heldByOneStage;
    private int heldNext;
    private int pooled;

    private PooledTrials() {}

    /** Prints a line for each kind of network. */
    public static void main(String[] arguments) {
        int networks = Integer.parseInt(arguments[0]);
        for (int farms : new int[] {3, 6, 12}) {
            for (double spread : new double[] {0, 0.3, 0.6}) {
                var counted = new PooledTrials();
                for (int n = 0; n < networks; n++) {
                    counted.network(farms, spread, 1000L * n + farms + Math.round(100 * spread));
                }
                System.out.printf(
                        Locale.ROOT,
                        "%d farms, effects differ by %.1f: changed %.3f, interval holds %.3f, one-stage %.3f, next farm %.3f (%d)%n",
                        farms,
                        spread,
                        counted.share(counted.changed),
                        counted.share(counted.held),
                        counted.share(counted.heldByOneStage),
                        counted.share(counted.heldNext),
                        counted.pooled);
            }
        }
    }

    private double share(int of) {
        return (double) of / pooled;
    }

    /** The mean effect is 0. */
    private void network(int farms, double spread, long seed) {
        var random = Generator.of(seed);
        List<SharedTrial> trials = new ArrayList<>();
        for (int farm = 1; farm <= farms; farm++) {
            var files = Shared.sown(
                    PLAN.formatted(farm),
                    seed * 100 + farm,
                    Map.of("soak=8", spread * normal(random)),
                    0.5 * normal(random));
            trials.add(new SharedTrial("id" + farm, Optional.empty(), Contribution.of(files)));
        }
        var result = Pooling.of(trials::forEach, PoolingChoices.USUAL, "calibration");
        if (result.effects().isEmpty() || result.effects().get(0).tau2() == null) {
            return;
        }
        var effect = result.effects().get(0);
        double next = spread * normal(random);
        pooled++;
        changed += result.verdicts().get(0).verdict().equals("changed") ? 1 : 0;
        held += effect.low() <= 0 && 0 <= effect.high() ? 1 : 0;
        heldByOneStage += effect.oneStage() != null
                        && effect.oneStage().low() != null
                        && effect.oneStage().low() <= 0
                        && 0 <= effect.oneStage().high()
                ? 1
                : 0;
        heldNext += effect.predictionLow() <= next && next <= effect.predictionHigh() ? 1 : 0;
    }

    private static double normal(UniformRandomProvider random) {
        return Math.sqrt(-2 * Math.log(1 - random.nextDouble())) * Math.cos(2 * Math.PI * random.nextDouble());
    }
}
