package org.fairtray.findings;

import java.util.List;
import java.util.Map;

/**
 * Everything an analysis found. results.json and report.html are two renderings of it, so a number that isn't here is
 * shown nowhere. Numbers that are not available are {@code null}, never NaN. Rates and differences of rates are
 * proportions; coefficients are on the log-odds scale.
 *
 * @param fairtray the version that made it
 * @param trial the trial's title
 * @param sealed whether plan and layout are those that were sealed before sowing
 * @param seal what the seal says, in words and numbers
 * @param outcomes in the plan's order, the question's own first
 * @param warnings what stands in the way of an answer
 */
public record Findings(
        String fairtray,
        String trial,
        boolean sealed,
        SealFinding seal,
        List<OutcomeFindings> outcomes,
        List<Warning> warnings) {

    /**
     * What became of the seal.
     *
     * @param state holds, absent, plan changed, layout changed, or both changed
     * @param sentence the same for people
     * @param seed null without a seal, as are generator, time and version of the drawing
     */
    public record SealFinding(
            String state,
            String sentence,
            Long seed,
            String generator,
            String time,
            String version,
            String planSha256,
            String layoutSha256) {}

    /**
     * Something that limits what can be said.
     *
     * @param kind a word of the audit, such as confounded, or of the data, such as left out
     * @param factors the factors it touches
     */
    public record Warning(String kind, List<String> factors, String sentence) {}

    /**
     * What was found for one outcome.
     *
     * @param kind count or measure
     * @param of what a count is out of; null for a measure
     * @param trays trays used
     * @param leftOut codes of the trays of the layout that could not be used
     * @param leftOutReasons why, tray by tray
     * @param logistic null for a measure
     * @param rerandomisation terms that the analysis of variance tests, tested by running the randomisation again
     * @param effects every level against the control
     * @param pairs every pair of levels, for factors of three levels or more
     * @param trends of numeric factors
     * @param best levels of numeric factors whose curve bends
     * @param asGoodAs levels held against the difference that would matter; empty without one
     * @param costs by treatment; empty where the plan gives none
     * @param speed null for a measure, and for a count read on one day only
     * @param soundness whether the data can be relied on
     * @param trayValues every tray used, in the layout's order
     * @param progress counts by treatment and day; empty for a measure
     * @param methods what was done, sentence by sentence, written from what was done
     */
    public record OutcomeFindings(
            String name,
            String kind,
            String of,
            int day,
            int trays,
            List<String> leftOut,
            List<LeftOut> leftOutReasons,
            Design design,
            List<? extends Summary> summary,
            Anova anova,
            Logistic logistic,
            List<Rerandomised> rerandomisation,
            List<TermTest> tests,
            List<? extends Effect> effects,
            List<? extends Effect> pairs,
            List<InteractionNote> interactions,
            List<Trend> trends,
            List<Trend.Best> best,
            List<AsGoodAs> asGoodAs,
            List<Cost> costs,
            Speed speed,
            List<Verdict> verdicts,
            List<DataCheck> soundness,
            List<TrayValue> trayValues,
            List<Progress> progress,
            List<String> methods) {}

    /** A tray that could not be used, and why. */
    public record LeftOut(String tray, String reason) {}

    /**
     * What the layout is as a design.
     *
     * @param name the textbook's term
     * @param treatments the treatments in words, such as "2 × 3 factorial"
     * @param strata the levels at which trays can differ by place, outermost first, ending with tray
     * @param description the design in one sentence
     * @param units how many units each stratum has, in the order of strata
     * @param source the textbook or paper that the name comes from
     * @param place the place as nested and crossed levels, such as "shelf (2) → stack (3)"
     * @param restrictions what the plan asks of a layout besides, and the trays used keep, in words
     */
    public record Design(
            String name,
            String treatments,
            List<String> strata,
            String description,
            List<Integer> units,
            String source,
            String place,
            List<String> restrictions) {}

    /** Rate or mean of one treatment. */
    public sealed interface Summary {
        /** Level by factor. */
        Map<String, String> treatment();

        int trays();
    }

    /**
     * Rate of one treatment.
     *
     * @param low lower end of the 95 % (or 1 - alpha) interval
     * @param interval how low and high were made: "wilson", or "wilson, widened" by the dispersion
     * @param dispersion the factor by which trays differ more than seeds alone would; 1 where not widened
     */
    public record CountSummary(
            Map<String, String> treatment,
            int trays,
            long successes,
            long of,
            Double rate,
            Double low,
            Double high,
            String interval,
            Double dispersion)
            implements Summary {}

    /** Mean of one treatment, in the measure's unit; low and high are null where trays are not repeated. */
    public record MeasureSummary(
            Map<String, String> treatment, int trays, Double mean, Double standardDeviation, Double low, Double high)
            implements Summary {}

    /**
     * Analysis of variance.
     *
     * @param scale angular, proportion, logit or raw
     * @param method strata, or mixed where the layout is not orthogonal
     * @param orthogonal whether every term lies wholly in one stratum and no two terms share anything
     * @param strata by stratum, outermost first
     * @param terms null with method strata; else each term tested once
     * @param variances null with method strata; else variance components by place level and tray
     * @param notes what is aliased, partly confounded or untestable, in words
     */
    public record Anova(
            String scale,
            String method,
            boolean orthogonal,
            List<Stratum> strata,
            List<AnovaTerm> terms,
            Map<String, Double> variances,
            List<String> notes) {}

    /** One stratum; residual is null where nothing is left over. */
    public record Stratum(String stratum, List<AnovaTerm> terms, Residual residual) {}

    /**
     * A term in a stratum; f, denominator_df and p are null where nothing is left to test against.
     *
     * @param efficiency share of the information on the term that lies in this stratum, in (0, 1]
     */
    public record AnovaTerm(
            String term,
            List<String> factors,
            int df,
            Double sumOfSquares,
            Double meanSquare,
            Double f,
            Double denominatorDf,
            Double p,
            Double efficiency) {}

    /** What is left over in a stratum. */
    public record Residual(int df, Double sumOfSquares, Double meanSquare) {}

    /**
     * The test a verdict rests on: a term against the units it was randomised to.
     *
     * @param stratum the units, such as stack or tray
     * @param statistic f
     * @param dispersion variance between such units over what seeds alone would give (counts), or the residual mean
     *     square (measures)
     * @param pAnova of the same term in the analysis of variance of rates, where that has to agree before a verdict is
     *     "changed"; else null
     * @param pVerdict a verdict rests on it: the larger of the two, with no dispersion below what seeds alone give
     */
    public record TermTest(
            String term,
            List<String> factors,
            String stratum,
            String statistic,
            Double value,
            int df,
            Double denominatorDf,
            Double dispersion,
            Double p,
            Double pAnova,
            Double pVerdict) {

        /**
         * The same test beside the analysis of variance.
         *
         * @param anova of the same term
         */
        public TermTest agreedWith(TermTest anova) {
            Double agreed = pVerdict == null || anova.pVerdict == null
                    ? pVerdict
                    : Double.valueOf(Math.max(pVerdict, anova.pVerdict));
            return new TermTest(
                    term, factors, stratum, statistic, value, df, denominatorDf, dispersion, p, anova.p, agreed);
        }
    }

    /** How an interaction shows, where it matters. */
    public record InteractionNote(String term, List<String> factors, Double p, String sentence) {}

    /** changed, no worthwhile change, or cannot tell; and the same in a sentence with numbers. */
    public record Verdict(String factor, String verdict, String sentence) {}

    /**
     * One tray.
     *
     * @param place number by place level
     * @param successes null for a measure, as is of
     * @param value the rate, or the measure
     * @param fitted the model's rate or mean; null where no model could be fitted
     * @param residual standardised: about within -2 and 2; null where there is none
     */
    public record TrayValue(
            String tray,
            Map<String, Integer> place,
            Map<String, String> treatment,
            Long successes,
            Long of,
            Double value,
            Double fitted,
            Double residual) {}

    /** Counts of a treatment by day, its trays added up. */
    public record Progress(String column, Map<String, String> treatment, List<Point> points) {}

    /** One day: trays read on it, how many of how many, and the rate. */
    public record Point(int day, int trays, long successes, long of, Double rate) {}
}
