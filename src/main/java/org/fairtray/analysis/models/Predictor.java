package org.fairtray.analysis.models;

import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.logistic.LogisticFit;

/**
 * What a fitted model says of a cell: its rate or mean, and how that moves with the coefficients.
 *
 * @param model the columns
 * @param estimates their coefficients
 * @param onOdds whether the linear predictor is a log-odds; else it is the rate or mean itself
 */
public record Predictor(Model model, Estimates estimates, boolean onOdds) {

    /**
     * The prediction for one cell.
     *
     * @param weights how the linear predictor is made of the coefficients
     * @param value the rate or mean
     * @param slope how much the rate or mean changes with the linear predictor
     */
    public record Prediction(double[] weights, double value, double slope) {}

    public Prediction of(Cell cell) {
        double[] weights = model.matrix().ofKept(model.row(cell));
        double linear = estimates.combination(weights);
        double rate = LogisticFit.rate(linear);
        return onOdds ? new Prediction(weights, rate, rate * (1 - rate)) : new Prediction(weights, linear, 1);
    }
}
