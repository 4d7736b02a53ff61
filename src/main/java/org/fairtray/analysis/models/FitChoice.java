package org.fairtray.analysis.models;

import java.util.Optional;
import org.fairtray.findings.Logistic;

/**
 * The logistic fit that effects and verdicts rest on. The layout and separation decide it, never a p-value.
 *
 * @param used its name; null where nothing is left to hold differences against
 * @param why the reason, in one sentence
 * @param yardstick what differences are held against
 * @param predictor the rates it fits
 * @param marginal the fit with random place effects, where it was made
 */
public record FitChoice(
        String used, String why, Yardstick yardstick, Predictor predictor, Optional<Logistic.Fit> marginal) {

    /**
     * The choice for some counts.
     *
     * @param anova of their rates
     */
    public static FitChoice of(CountFits fits, AnovaPart anova, double alpha) {
        var predictor =
                new Predictor(fits.model(), fits.isSparse() ? fits.penalised().estimates() : fits.estimates(), true);
        if (fits.dispersion().isEmpty()) {
            return new FitChoice(
                    null,
                    "No logistic fit is used, because no two trays were treated alike: how much trays differ by themselves"
                            + " is not known, and to count on seeds alone would claim too much.",
                    fits.byStratum(),
                    predictor,
                    Optional.empty());
        }
        var ofRates = AnovaYardstick.of(fits, anova);
        if (!fits.isFinite() || fits.isSparse()) {
            return new FitChoice(
                    "penalised",
                    (fits.isFinite()
                                    ? "Some trays came out nearly at 0 or 100 %, where trays differ in ways that no"
                                            + " formula for their spread follows"
                                    : "Some rates are 0 or 100 % throughout, where the odds of the plain fit are infinite")
                            + ", so rates are those of the penalised fit, and each difference is held against what the"
                            + " trays or stacks that make it up differ by themselves.",
                    new UnequalYardstick(fits, fits.byStratum(), ofRates),
                    predictor,
                    Optional.empty());
        }
        return MarginalFit.of(fits)
                .map(m -> m.choice(ofRates, alpha))
                .orElseGet(() -> new FitChoice(
                        "quasi",
                        "Seeds of one tray are alike, so the logistic model with its variances multiplied by the measured"
                                + " dispersion is used, each term with the dispersion between the units it was given to.",
                        new AgreedYardstick(fits.byStratum(), ofRates),
                        predictor,
                        Optional.empty()));
    }
}
