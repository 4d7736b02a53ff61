package org.fairtray.analysis.models;

import java.util.List;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * Levels of a factor, each averaged with equal weights over {@link Combinations} of the other factors' levels and over
 * blocks. Contrasts of them come with gradients, for variances by the delta method.
 *
 * <p>Source: Lane and Nelder (1982), Biometrics 38, 613-621 (predictions averaged over other factors).
 */
public final class LevelAverages {
    private final Predictor predictor;
    private final List<Average> averages;

    /** One level: its rate or mean, and how that and the linear predictor move with each coefficient. */
    private record Average(double value, double[] slope, double[] linear) {}

    /**
     * A weighted sum of levels.
     *
     * @param value of their rates or means
     * @param linearValue of their averaged log-odds; of the means, for a measure
     * @param slope how value moves with each coefficient
     * @param linear how linearValue does
     */
    public record Contrast(double value, double linearValue, double[] slope, double[] linear) {}

    private LevelAverages(Predictor predictor, List<Average> averages) {
        this.predictor = predictor;
        this.averages = averages;
    }

    /**
     * Averages some levels.
     *
     * @param levels one or more
     * @param among levels of other factors to stay with; empty to average over all
     * @return empty where no combination lets the levels be told apart
     */
    public static Optional<LevelAverages> of(
            Structure structure, Predictor predictor, Factor factor, List<String> levels, Treatment among) {
        var treatments = Combinations.of(structure, predictor.model(), factor, levels, among)
                .byLevel();
        return treatments.isEmpty()
                ? Optional.empty()
                : Optional.of(new LevelAverages(
                        predictor,
                        treatments.stream().map(t -> average(predictor, t)).toList()));
    }

    private static Average average(Predictor predictor, List<Treatment> treatments) {
        int width = predictor.estimates().size();
        var slope = new double[width];
        var linear = new double[width];
        double value = 0;
        double share = 1.0 / (treatments.size() * predictor.model().blocks().size());
        for (Treatment treatment : treatments) {
            for (var block : predictor.model().blocks()) {
                var found = predictor.of(new Cell(treatment, block));
                value += share * found.value();
                add(linear, share, found.weights());
                add(slope, share * found.slope(), found.weights());
            }
        }
        return new Average(value, slope, linear);
    }

    private static void add(double[] to, double times, double[] what) {
        for (int j = 0; j < to.length; j++) {
            to[j] += times * what[j];
        }
    }

    /** The rate or mean of a level, by its number. */
    public double value(int level) {
        return averages.get(level).value();
    }

    /**
     * A weighted sum of the levels.
     *
     * @param weights one for each level, adding up to 0, so that what can't be told of each level alone drops out
     * @throws IllegalArgumentException if there are more or fewer weights than levels
     */
    public Contrast contrast(double... weights) {
        if (weights.length != averages.size()) {
            throw new IllegalArgumentException(weights.length + " weights: expected " + averages.size());
        }
        int width = predictor.estimates().size();
        var slope = new double[width];
        var linear = new double[width];
        double value = 0;
        for (int i = 0; i < weights.length; i++) {
            value += weights[i] * averages.get(i).value();
            add(slope, weights[i], averages.get(i).slope());
            add(linear, weights[i], averages.get(i).linear());
        }
        return new Contrast(value, predictor.estimates().combination(linear), slope, linear);
    }
}
