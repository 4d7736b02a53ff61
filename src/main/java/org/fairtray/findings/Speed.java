package org.fairtray.findings;

import java.util.List;
import java.util.Map;

/**
 * How fast a count came out.
 *
 * @param hazard the grouped-time model; null where it could not be fitted
 * @param tests what verdicts on speed rest on: the mean time of those that came out of each tray, each term against the
 *     units it was given to
 * @param effects every level against the control, in days of that mean time; a negative difference is earlier
 * @param curves by treatment
 * @param indices by treatment, of its trays added up
 * @param verdicts one for each factor, on how fast alone: changed or cannot tell
 * @param notes what was left out or could not be had, in words
 */
public record Speed(
        Hazard hazard,
        List<Findings.TermTest> tests,
        List<? extends Effect> effects,
        List<Curve> curves,
        List<Indices> indices,
        List<Findings.Verdict> verdicts,
        List<String> notes) {

    /**
     * Grouped-time proportional hazards, complementary log-log, each day its own intercept.
     *
     * @param terms by the likelihood of independent seeds; the tests of the speed allow for trays
     * @param daysLeftOut days on which nothing came out of any tray, or all that was left: their intercepts are infinite
     *     and they tell nothing
     */
    public record Hazard(
            List<Logistic.Term> terms,
            List<Logistic.Coefficient> coefficients,
            Double logLikelihood,
            List<Integer> daysLeftOut) {}

    /**
     * The log-logistic curve of a treatment, and beside it the steps that were counted.
     *
     * @param t50Days half way to the final rate; null where the counts don't tell
     * @param low of its interval, as is high; null where no treatment has two trays
     * @param finalRate where the curve ends
     * @param steepness the power b
     * @param stepT50Low the last day on which fewer than half of those that came out had done so; null if none
     * @param stepT50High the first day on which half of them had
     * @param note what stood in the way; null if nothing
     */
    public record Curve(
            Map<String, String> treatment,
            Double t50Days,
            Double low,
            Double high,
            Double finalRate,
            Double steepness,
            Integer stepT50Low,
            Integer stepT50High,
            String note) {}

    /** Indices in use in the trade, by treatment; null where nothing came out. Their definitions stand in the report. */
    public record Indices(Map<String, String> treatment, List<Index> values) {}

    /**
     * One index.
     *
     * @param unit such as days or % a day; none where it has none
     * @param source who defined it
     */
    public record Index(String name, Double value, String unit, String source) {}
}
