package org.fairtray.analysis.models;

/** The analysis of variance of a count's rates, on the scale that the plan asks for, as a yardstick. */
final class AngularYardstick {
    private AngularYardstick() {}

    /** Its tests; a verdict counts on no less variance than seeds alone give. */
    static Yardstick of(CountFits fits) {
        var structure = fits.structure();
        var scale = structure.trial().choices().scale();
        double[] values = fits.counts().stream()
                .mapToDouble(c -> scale.of((double) c.successes(), (double) c.trials()))
                .toArray();
        double least = SeedVariance.on(scale, fits.counts());
        var anova = AnovaPart.of(structure, values);
        return anova.placeForVerdicts()
                .<Yardstick>map(place -> VarianceYardstick.ofValues(place, least))
                .orElseGet(() -> new StratumYardstick(
                        structure,
                        fits.model().matrix(),
                        fits.estimates(),
                        anova.residualMeanSquares(),
                        least,
                        anova::meanChange));
    }
}
