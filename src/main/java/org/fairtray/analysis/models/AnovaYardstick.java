package org.fairtray.analysis.models;

/** The analysis of variance of a count's rates, on the scale that the plan asks for, as a yardstick. */
final class AnovaYardstick {
    private AnovaYardstick() {}

    /**
     * Its tests; a verdict counts on no less variance than seeds alone give.
     *
     * @param anova of the counts' rates
     */
    static Yardstick of(CountFits fits, AnovaPart anova) {
        var structure = fits.structure();
        double least = SeedVariance.on(structure.trial().choices().scale(), fits.counts());
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
