package org.fairtray.analysis.models;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * One level of a factor against another, averaged with equal weights over combinations of the other factors' levels and
 * over blocks; only combinations that were sown with both levels take part. Gradients serve for variances by the delta
 * method.
 *
 * <p>Source: Lane and Nelder (1982), Biometrics 38, 613-621 (predictions averaged over other factors).
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
        var sown = structure.trays().stream().map(t -> t.treatment()).distinct().toList();
        var rests = structure.trial().treatments().stream()
                .filter(t -> level.equals(t.level(factor.name())) && t.includes(among))
                .filter(t -> sown.contains(t) && sown.contains(at(t, factor, against)))
                .filter(t -> estimable(predictor.model(), t, at(t, factor, against)))
                .toList();
        return rests.isEmpty() ? Optional.empty() : Optional.of(average(predictor, factor, against, rests));
    }

    private static Treatment at(Treatment treatment, Factor factor, String level) {
        return treatment.with(new Treatment(Map.of(factor.name(), level)));
    }

    private static boolean estimable(Model model, Treatment one, Treatment other) {
        var block = model.blocks().get(0);
        double[] weights = model.row(new Cell(one, block));
        double[] others = model.row(new Cell(other, block));
        for (int j = 0; j < weights.length; j++) {
            weights[j] -= others[j];
        }
        return model.matrix().estimable(weights);
    }

    private static Comparison average(Predictor predictor, Factor factor, String against, List<Treatment> treatments) {
        int width = predictor.estimates().size();
        var slope = new double[width];
        var linear = new double[width];
        double value = 0;
        double other = 0;
        double share = 1.0 / (treatments.size() * predictor.model().blocks().size());
        for (Treatment treatment : treatments) {
            for (var block : predictor.model().blocks()) {
                var own = predictor.of(new Cell(treatment, block));
                var opposite = predictor.of(new Cell(at(treatment, factor, against), block));
                value += share * own.value();
                other += share * opposite.value();
                for (int j = 0; j < width; j++) {
                    linear[j] += share * (own.weights()[j] - opposite.weights()[j]);
                    slope[j] += share * (own.slope() * own.weights()[j] - opposite.slope() * opposite.weights()[j]);
                }
            }
        }
        return new Comparison(value, other, predictor.estimates().combination(linear), slope, linear);
    }
}
