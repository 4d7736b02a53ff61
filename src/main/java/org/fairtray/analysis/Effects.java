package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.analysis.models.Comparison;
import org.fairtray.analysis.models.Predictor;
import org.fairtray.analysis.models.Tests;
import org.fairtray.design.Structure;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Numbers;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.comparisons.Holm;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * The difference each level makes against the control: intervals by Student's t with the dispersion and degrees of
 * freedom of the units that the factor was given to.
 */
final class Effects {
    private final Structure structure;
    private final Predictor predictor;
    private final Tests tests;
    private final boolean rates;

    /** A comparison with the yardstick it is held against. */
    record Measured(Comparison comparison, Double dispersion, Integer df, double alpha) {

        boolean sure() {
            return dispersion != null && comparison.variance() * dispersion > 0;
        }

        Double half() {
            return sure()
                    ? Double.valueOf(Tail.tQuantile(1 - alpha / 2, df) * Math.sqrt(comparison.variance() * dispersion))
                    : null;
        }

        Double low() {
            return sure() ? Double.valueOf(comparison.difference() - half()) : null;
        }

        Double high() {
            return sure() ? Double.valueOf(comparison.difference() + half()) : null;
        }

        Double p() {
            return sure()
                    ? Double.valueOf(
                            Tail.tTwoSided(comparison.difference() / Math.sqrt(comparison.variance() * dispersion), df))
                    : null;
        }

        /** Half the width of the interval of the log-odds ratio. */
        Double halfOdds() {
            return sure()
                    ? Double.valueOf(
                            Tail.tQuantile(1 - alpha / 2, df) * Math.sqrt(comparison.logOddsVariance() * dispersion))
                    : null;
        }
    }

    /** @param rates whether the outcome is a rate; else a measure */
    Effects(Structure structure, Predictor predictor, Tests tests, boolean rates) {
        this.structure = structure;
        this.predictor = predictor;
        this.tests = tests;
        this.rates = rates;
    }

    /** One level against another with some levels of other factors held. */
    Optional<Measured> measured(Factor factor, String level, String against, Treatment among) {
        var test = tests.of(factor.name());
        double alpha = structure.trial().choices().alpha();
        return Comparison.of(structure, predictor, factor, level, against, among)
                .map(c -> new Measured(c, test.dispersion(), test.denominatorDf(), alpha));
    }

    /** Every level of every factor against its control. */
    List<Findings.Effect> findings() {
        return structure.trial().factors().stream()
                .flatMap(f -> ofFactor(f).stream())
                .toList();
    }

    private List<Findings.Effect> ofFactor(Factor factor) {
        var trial = structure.trial();
        String control = trial.controlLevel(factor);
        var levels = trial.levelsFromControl(factor).stream()
                .skip(1)
                .filter(l -> sown(factor, l))
                .toList();
        var all = levels.stream()
                .map(l -> measured(factor, l, control, new Treatment(Map.of())))
                .toList();
        var adjusted = adjusted(all);
        var effects = new ArrayList<Findings.Effect>();
        for (int i = 0; i < levels.size(); i++) {
            effects.add(
                    effect(factor, levels.get(i), control, all.get(i).orElse(null), adjusted.get(i), levels.size()));
        }
        return effects;
    }

    private boolean sown(Factor factor, String level) {
        return structure.trays().stream()
                .anyMatch(t -> level.equals(t.treatment().level(factor.name())));
    }

    private static List<Double> adjusted(List<Optional<Measured>> all) {
        double[] p = all.stream()
                .filter(m -> m.isPresent() && m.get().p() != null)
                .mapToDouble(m -> m.get().p())
                .toArray();
        double[] holm = Holm.adjust(p);
        var adjusted = new ArrayList<Double>();
        int next = 0;
        for (var one : all) {
            adjusted.add(one.isPresent() && one.get().p() != null ? Double.valueOf(holm[next++]) : null);
        }
        return adjusted;
    }

    private Findings.Effect effect(
            Factor factor, String level, String control, Measured measured, Double adjusted, int comparisons) {
        String adjustment = comparisons == 1 ? "none needed" : "Holm, " + comparisons + " levels against the control";
        if (measured == null) {
            return rates
                    ? new Findings.RateEffect(
                            factor.name(),
                            level,
                            control,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            adjustment,
                            null)
                    : new Findings.MeanEffect(
                            factor.name(), level, control, null, null, null, null, null, null, null, adjustment, null);
        }
        String from = measured.p() == null ? null : "t of the difference, " + measured.df() + " degrees of freedom";
        return rates
                ? rateEffect(factor, level, control, measured, adjusted, adjustment, from)
                : meanEffect(factor, level, control, measured, adjusted, adjustment, from);
    }

    private Findings.Effect meanEffect(
            Factor factor, String level, String control, Measured m, Double adjusted, String adjustment, String from) {
        return new Findings.MeanEffect(
                factor.name(),
                level,
                control,
                m.comparison().value(),
                m.comparison().against(),
                m.comparison().difference(),
                m.low(),
                m.high(),
                m.p(),
                adjusted,
                adjustment,
                from);
    }

    /** Least squares may end a little beyond 0 or 1. */
    private static double rate(double fitted) {
        return Math.max(0, Math.min(1, fitted));
    }

    private Findings.Effect rateEffect(
            Factor factor, String level, String control, Measured m, Double adjusted, String adjustment, String from) {
        boolean odds = predictor.onOdds();
        double logOdds = m.comparison().logOdds();
        Double half = odds ? m.halfOdds() : null;
        return new Findings.RateEffect(
                factor.name(),
                level,
                control,
                rate(m.comparison().value()),
                rate(m.comparison().against()),
                m.comparison().difference(),
                m.low() == null ? null : Double.valueOf(Math.max(-1, m.low())),
                m.high() == null ? null : Double.valueOf(Math.min(1, m.high())),
                odds ? Double.valueOf(Math.exp(logOdds)) : null,
                half == null ? null : Numbers.orNull(Math.exp(logOdds - half)),
                half == null ? null : Numbers.orNull(Math.exp(logOdds + half)),
                m.p(),
                adjusted,
                adjustment,
                from);
    }
}
