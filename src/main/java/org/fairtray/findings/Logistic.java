package org.fairtray.findings;

import java.util.List;
import java.util.Map;

/**
 * Logistic models.
 *
 * @param used the fit that effects and verdicts rest on; null where none can be used
 * @param why the reason in one sentence
 * @param separation null, or what came out at 0 or 100 % throughout, in words
 * @param fits by name: binomial, quasi, beta_binomial, mixed, marginal, penalised; those that there are
 */
public record Logistic(String used, String why, String separation, Map<String, Fit> fits) {

    /** A fitted logistic model. */
    public sealed interface Fit {
        List<Term> terms();

        List<Coefficient> coefficients();
    }

    /** Independent seeds. */
    public record Binomial(
            List<Term> terms,
            List<Coefficient> coefficients,
            Double logLikelihood,
            Double deviance,
            int residualDf,
            Double pearson)
            implements Fit {}

    /** Seeds of a tray alike: variances times the dispersion, F tests. */
    public record Quasi(Double dispersion, List<Term> terms, List<Coefficient> coefficients) implements Fit {}

    /**
     * Trays that differ in their rate as beta variables do.
     *
     * @param correlation of two seeds of one tray, in [0, 1]
     * @param correlationLow of its interval by profile likelihood, as is correlationHigh
     */
    public record BetaBinomial(
            List<Term> terms,
            List<Coefficient> coefficients,
            Double correlation,
            Double correlationLow,
            Double correlationHigh,
            Double logLikelihood)
            implements Fit {}

    /**
     * Normal random intercepts on the log-odds scale.
     *
     * @param standardDeviations by place level and tray; 0 where none was found
     * @param atZero the levels whose standard deviation came out as 0
     */
    public record Mixed(
            List<Term> terms,
            List<Coefficient> coefficients,
            Map<String, Double> standardDeviations,
            List<String> atZero,
            Double logLikelihood)
            implements Fit {}

    /**
     * Places at random, rates averaged over them, for layouts that are not orthogonal.
     *
     * @param variances between units on the log-odds scale, by place level; tray: of a count with weight 1
     * @param dispersion between trays of one unit over what seeds alone would give
     */
    public record Marginal(
            List<Term> terms, List<Coefficient> coefficients, Map<String, Double> variances, Double dispersion)
            implements Fit {}

    /**
     * Finite whatever the counts.
     *
     * @param intervals of the coefficients: by "profile" likelihood, or in large trials "wald"
     */
    public record Penalised(
            List<Term> terms, List<Coefficient> coefficients, String intervals, Double penalisedLogLikelihood)
            implements Fit {}

    /** A term of a logistic fit, tested against the model of all terms that don't contain it. */
    public sealed interface Term {
        String term();

        int df();

        String statistic();

        Double value();

        Double p();

        /** Tested by its statistic alone. */
        record Plain(String term, List<String> factors, int df, String statistic, Double value, Double p)
                implements Term {}

        /**
         * Tested by parametric bootstrap as well.
         *
         * @param bootstrapP null where no draw could be fitted
         */
        record Bootstrapped(
                String term, List<String> factors, int df, String statistic, Double value, Double p, Double bootstrapP)
                implements Term {}
    }

    /** A coefficient on the log-odds scale with its interval. */
    public record Coefficient(String name, Double estimate, Double standardError, Double low, Double high) {}
}
