package org.fairtray.analysis.models;

import java.util.List;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * One level of a factor against another: {@link LevelAverages} of the two. Gradients serve for variances by the delta
 * method.
 *
 * @param value the level's rate or mean
 * @param against the other level's
 * @param logOdds difference of the averaged log-odds; of the means, for a measure
 * @param slope how value less against moves with each coefficient
 * @param linear how the log-odds difference does
 */
public record Comparison(double value, double against, double logOdds, double[] slope, double[] linear) {

    public double difference() {
        return value - against;
    }

    /**
     * Compares two levels.
     *
     * @param among levels of other factors to stay with; empty to average over all
     * @return empty where no combination lets the two be told apart
     */
    public static Optional<Comparison> of(
            Structure structure, Predictor predictor, Factor factor, String level, String against, Treatment among) {
        return LevelAverages.of(structure, predictor, factor, List.of(level, against), among)
                .map(Comparison::firstAgainstSecond);
    }

    private static Comparison firstAgainstSecond(LevelAverages levels) {
        var contrast = levels.contrast(1, -1);
        return new Comparison(
                levels.value(0), levels.value(1), contrast.linearValue(), contrast.slope(), contrast.linear());
    }
}
