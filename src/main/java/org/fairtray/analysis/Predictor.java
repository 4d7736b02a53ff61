package org.fairtray.analysis;

import org.fairtray.statistics.Estimates;
import org.fairtray.statistics.LogisticFit;

/**
 * What a fitted model says of a cell: its rate or mean, and how that moves with the coefficients.
 *
 * @param model the columns
 * @param estimates their coefficients
 * @param onOdds whether the linear predictor is a log-odds; else it is the rate or mean itself
 */
record Predictor(Model model, Estimates estimates, boolean onOdds) {

    /** The linear predictor of a cell. */
    double linear(Cell cell) {
        return estimates.combination(weights(cell));
    }

    /** The rate or mean of a cell. */
    double value(Cell cell) {
        return onOdds ? LogisticFit.rate(linear(cell)) : linear(cell);
    }

    /** How the rate or mean of a cell changes with each coefficient. */
    double[] gradient(Cell cell) {
        var gradient = weights(cell);
        if (onOdds) {
            double rate = value(cell);
            for (int j = 0; j < gradient.length; j++) {
                gradient[j] *= rate * (1 - rate);
            }
        }
        return gradient;
    }

    double[] weights(Cell cell) {
        return model.matrix().ofKept(model.row(cell));
    }
}
