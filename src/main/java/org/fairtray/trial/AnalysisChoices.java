package org.fairtray.trial;

/**
 * How the trial is to be analysed, chosen before sowing.
 *
 * @param alpha the error rate of a test, in (0, 0.5]
 * @param interactions highest order of interaction fitted; 1 for main effects alone
 * @param scale the scale on which counts enter the analysis of variance
 */
public record AnalysisChoices(double alpha, int interactions, Scale scale) {

    /** What holds where the plan says nothing: 0.05, two-factor interactions, angular. */
    public static final AnalysisChoices USUAL = new AnalysisChoices(0.05, 2, Scale.ANGULAR);

    /** @throws IllegalArgumentException if alpha is outside (0, 0.5] or interactions below 1 */
    public AnalysisChoices {
        if (!(alpha > 0 && alpha <= 0.5) || interactions < 1) {
            throw new IllegalArgumentException("alpha " + alpha + ", interactions " + interactions
                    + ": expected 0 < alpha <= 0.5, interactions from 1");
        }
    }
}
