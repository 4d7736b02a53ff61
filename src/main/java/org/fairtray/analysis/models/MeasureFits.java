package org.fairtray.analysis.models;

import org.fairtray.design.Structure;
import org.fairtray.statistics.linear.LinearFit;

/** A measure's linear model: least squares with fixed blocks, or with places at random where the layout needs it. */
public final class MeasureFits {
    private final Predictor predictor;
    private final Yardstick yardstick;
    private final double spread;

    private MeasureFits(Predictor predictor, Yardstick yardstick, double spread) {
        this.predictor = predictor;
        this.yardstick = yardstick;
        this.spread = spread;
    }

    /**
     * Fits one value for each tray.
     *
     * @param anova of the same values
     * @param leastVariance of a tray's value, which a verdict counts on at least; 0 where nothing is known of it
     */
    public static MeasureFits of(Structure structure, double[] values, AnovaPart anova, double leastVariance) {
        var combined = anova.placeForVerdicts();
        if (combined.isPresent()) {
            var place = combined.get();
            return new MeasureFits(
                    new Predictor(place.model(), place.fit().estimates(), false),
                    VarianceYardstick.ofValues(place, leastVariance),
                    Math.sqrt(place.variances().values().stream()
                            .mapToDouble(Double::doubleValue)
                            .sum()));
        }
        var model = Model.of(Cells.of(structure), structure.terms());
        var fit = LinearFit.of(model.matrix(), values);
        return new MeasureFits(
                new Predictor(model, fit.estimates(), false),
                new StratumYardstick(
                        structure,
                        model.matrix(),
                        fit.estimates(),
                        anova.residualMeanSquares(),
                        leastVariance,
                        anova::meanChange),
                Math.sqrt(fit.residualSumOfSquares() / fit.residualDf()));
    }

    public Predictor predictor() {
        return predictor;
    }

    public Yardstick yardstick() {
        return yardstick;
    }

    /** The mean fitted to a tray. */
    public double fitted(int tray) {
        return predictor.estimates().combination(predictor.model().matrix().row(tray));
    }

    /** The standard deviation of trays about what is fitted; not a number where nothing is left over. */
    public double spread() {
        return spread;
    }
}
