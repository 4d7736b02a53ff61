package org.fairtray.findings;

import java.util.List;
import java.util.Map;

/**
 * What many growers' trials showed together. A number that isn't available is null.
 *
 * @param fairtray the version of the program
 * @param trials how many trials some effect was pooled from
 * @param farms of how many farms; a trial that names none counts as a farm of its own
 * @param trays of these trials together
 * @param verdicts one for each factor of the first outcome
 * @param effects each level of each factor against the level that most trials compare with
 * @param slopes for each factor of numbers, the change with each unit
 * @param used the trials that were pooled, as they were drawn
 * @param leftOut trials, or factors of trials, that were not pooled, each with the reason
 * @param notes what was taken for the same, and what to mind
 */
public record Pooled(
        String fairtray,
        int trials,
        int farms,
        int trays,
        List<Verdict> verdicts,
        List<Effect> effects,
        List<Slope> slopes,
        List<Used> used,
        List<LeftOut> leftOut,
        List<String> notes) {

    /** changed, no worthwhile change, or cannot tell; and the same in a sentence with numbers. */
    public record Verdict(String factor, String outcome, String verdict, String sentence) {}

    /** A trial that was pooled. */
    public record Used(String id, String trial, String farm, String drawn, int trays, Map<String, String> conditions) {}

    /**
     * What was left out.
     *
     * @param factor null where it is the whole trial
     */
    public record LeftOut(String id, String trial, String factor, String reason) {}

    /**
     * A level against another, over all trials that compare the two.
     *
     * @param unit of the levels; null where they have none
     * @param of what a count is out of; null for a measure
     * @param scale log-odds, or the measure's own name
     * @param trials that compare the two levels
     * @param estimate mean of the trials' effects, on the scale
     * @param low of the interval of the mean, as is high
     * @param p of the mean, by Student's t
     * @param pAdjusted with the factor's other levels, by Holm
     * @param tau2 variance between the trials' true effects, as are the ends of its interval
     * @param i2 share of the spread that is between trials
     * @param q Cochran's, as is its p
     * @param predictionLow where the effect of another such trial may lie, as is predictionHigh
     * @param method how it was pooled
     * @param againstRate rate of the level compared with, averaged over trials; null for a measure
     * @param rate what the mean effect makes of it
     * @param difference rate less againstRate, or the estimate of a measure; its ends are those that a verdict counts on
     * @param differencePredictionLow the same of the prediction, as is differencePredictionHigh
     * @param oneStage all trays in one model, null where it wasn't fitted
     * @param studies trial by trial, as they were drawn
     * @param leaveOneOut the mean without each trial
     * @param cumulative the mean of the first trials, one more at a time
     * @param smallStudies whether small trials show other effects than large ones; null with too few
     * @param moderators what may explain that effects differ
     */
    public record Effect(
            String factor,
            String level,
            String against,
            String unit,
            String outcome,
            String of,
            String scale,
            int trials,
            Double estimate,
            Double standardError,
            Double low,
            Double high,
            Double p,
            Double pAdjusted,
            Double tau2,
            Double tau2Low,
            Double tau2High,
            Double i2,
            Double i2FromQ,
            Double q,
            Double qP,
            Double predictionLow,
            Double predictionHigh,
            String method,
            Double againstRate,
            Double rate,
            Double difference,
            Double differenceLow,
            Double differenceHigh,
            Double differencePredictionLow,
            Double differencePredictionHigh,
            OneStage oneStage,
            List<Study> studies,
            List<Step> leaveOneOut,
            List<Step> cumulative,
            SmallStudies smallStudies,
            List<Moderator> moderators) {}

    /** One trial's effect, with the share that it has in the mean. */
    public record Study(
            String id,
            String trial,
            String farm,
            String drawn,
            double estimate,
            double standardError,
            double low,
            double high,
            Double weight) {}

    /**
     * The mean of some of the trials.
     *
     * @param trial the one left out, or the last taken in
     */
    public record Step(
            String id, String trial, int trials, Double estimate, Double low, Double high, Double p, Double tau2) {}

    /**
     * A mixed logistic model of all trays.
     *
     * @param standardDeviations log-odds, by what differs: farm, slope (of the effect between farms), and what trays stand in
     * @param why where it couldn't be relied on, the reason; else null
     */
    public record OneStage(
            Double estimate,
            Double standardError,
            Double low,
            Double high,
            Double p,
            int trays,
            int farms,
            Map<String, Double> standardDeviations,
            Double logLikelihood,
            String why) {}

    /** The regression of effects over their standard errors on precision: an intercept away from 0 tells. */
    public record SmallStudies(double intercept, double standardError, double t, int df, double p, String sentence) {}

    /**
     * Something that trials differ in, held against their effects.
     *
     * @param kind words or number
     * @param explained share of tau2 that it takes away; null where there was none
     * @param groups by word, the mean of each; for a number the change with one unit
     */
    public record Moderator(
            String name,
            String kind,
            int trials,
            Double f,
            int df,
            Double denominatorDf,
            Double p,
            Double pAdjusted,
            Double tau2,
            Double explained,
            List<Group> groups,
            String sentence) {}

    /** Trials with one word, or all with a number. */
    public record Group(String word, int trials, Double estimate, Double low, Double high) {}

    /** The change with each unit, each trial's straight line through its own levels first. */
    public record Slope(
            String factor,
            String unit,
            String outcome,
            String scale,
            int trials,
            Double estimate,
            Double standardError,
            Double low,
            Double high,
            Double p,
            Double tau2,
            Double i2,
            Double q,
            Double predictionLow,
            Double predictionHigh,
            String method) {}
}
