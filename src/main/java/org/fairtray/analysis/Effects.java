package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.fairtray.analysis.models.Comparison;
import org.fairtray.analysis.models.Predictor;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.design.Structure;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Numbers;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/** The differences that levels make: each against the control, and where there are three or more, each against each. */
final class Effects {
    private static final Treatment ANY = new Treatment(Map.of());

    private final Structure structure;
    private final Predictor predictor;
    private final Yardstick yardstick;
    private final boolean rates;
    private final double alpha;

    /** Two levels of a factor. */
    private record Pair(Factor factor, String level, String against) {}

    /** @param rates whether the outcome is a rate; else a measure */
    Effects(Structure structure, Predictor predictor, Yardstick yardstick, boolean rates) {
        this.structure = structure;
        this.predictor = predictor;
        this.yardstick = yardstick;
        this.rates = rates;
        this.alpha = structure.trial().choices().alpha();
    }

    /** One level against another with some levels of other factors held. */
    Optional<Measured> measured(Factor factor, String level, String against, Treatment among) {
        return Comparison.of(structure, predictor, factor, level, against, among)
                .map(c -> new Measured(
                        c,
                        yardstick.spread(c.slope(), c.linear()).orElse(null),
                        predictor.onOdds() ? yardstick.oddsSpread(c.linear()).orElse(null) : null));
    }

    /** Every level of every factor against its control. */
    List<Effect> againstControl() {
        return structure.trial().factors().stream()
                .flatMap(f -> ofFactor(f).stream())
                .toList();
    }

    /** Every level of a factor against its control. */
    List<Effect> ofFactor(Factor factor) {
        return family(againstControl(factor), all -> Family.againstControl(all, yardstick, alpha));
    }

    /** Every pair of levels of factors with three or more. */
    List<Effect> pairs() {
        return structure.trial().factors().stream()
                .filter(f -> structure.sownLevels(f).size() > 2)
                .flatMap(f ->
                        family(
                                pairs(f),
                                all -> Family.pairs(all, structure.sownLevels(f).size(), alpha))
                                .stream())
                .toList();
    }

    private List<Pair> againstControl(Factor factor) {
        String control = structure.trial().controlLevel(factor);
        return structure.sownLevels(factor).stream()
                .filter(l -> !l.equals(control))
                .map(l -> new Pair(factor, l, control))
                .toList();
    }

    private List<Pair> pairs(Factor factor) {
        var levels = structure.sownLevels(factor);
        var pairs = new ArrayList<Pair>();
        for (int i = 0; i < levels.size(); i++) {
            for (int j = i + 1; j < levels.size(); j++) {
                pairs.add(new Pair(factor, levels.get(j), levels.get(i)));
            }
        }
        return pairs;
    }

    private List<Effect> family(List<Pair> pairs, Function<List<Measured>, Family> adjusting) {
        var all = pairs.stream()
                .map(p -> measured(p.factor(), p.level(), p.against(), ANY))
                .toList();
        var compared = all.stream().flatMap(Optional::stream).toList();
        var family = adjusting.apply(compared);
        var effects = new ArrayList<Effect>();
        for (int i = 0; i < pairs.size(); i++) {
            effects.add(
                    all.get(i).isEmpty()
                            ? unknown(pairs.get(i))
                            : effect(pairs.get(i), all.get(i).get(), family));
        }
        return effects;
    }

    private Effect unknown(Pair pair) {
        var factor = pair.factor().name();
        return rates
                ? Effect.OnRate.unknown(factor, pair.level(), pair.against())
                : Effect.OnMean.unknown(factor, pair.level(), pair.against());
    }

    private Effect effect(Pair pair, Measured m, Family family) {
        String from = m.sure()
                ? "t of the difference, " + Numbers.degrees(m.degreesOfFreedom()) + " degrees of freedom"
                : null;
        return rates ? rateEffect(pair, m, family, from) : meanEffect(pair, m, family, from);
    }

    private Effect meanEffect(Pair pair, Measured m, Family family, String from) {
        double own = m.sure() ? m.quantile(alpha) : 0;
        double together = m.sure() ? family.quantile() : 0;
        return new Effect.OnMean(
                pair.factor().name(),
                pair.level(),
                pair.against(),
                m.comparison().value(),
                m.comparison().against(),
                m.comparison().difference(),
                m.low(own),
                m.high(own),
                m.p(),
                family.adjusted(m),
                m.low(together),
                m.high(together),
                family.adjustment(),
                from,
                m.verdictLow(alpha),
                m.verdictHigh(alpha));
    }

    private Effect rateEffect(Pair pair, Measured m, Family family, String from) {
        double own = m.sure() ? m.quantile(alpha) : 0;
        double together = m.sure() ? family.quantile() : 0;
        boolean odds = predictor.onOdds();
        double logOdds = m.comparison().logOdds();
        Double half = odds ? m.halfOdds(alpha) : null;
        return new Effect.OnRate(
                pair.factor().name(),
                pair.level(),
                pair.against(),
                rate(m.comparison().value()),
                rate(m.comparison().against()),
                m.comparison().difference(),
                within(m.low(own)),
                within(m.high(own)),
                odds ? Double.valueOf(Math.exp(logOdds)) : null,
                half == null ? null : Numbers.orNull(Math.exp(logOdds - half)),
                half == null ? null : Numbers.orNull(Math.exp(logOdds + half)),
                m.p(),
                family.adjusted(m),
                within(m.low(together)),
                within(m.high(together)),
                family.adjustment(),
                from,
                within(m.verdictLow(alpha)),
                within(m.verdictHigh(alpha)));
    }

    /** Least squares may end a little beyond 0 or 1. */
    private static double rate(double fitted) {
        return Math.max(0, Math.min(1, fitted));
    }

    /** No two rates differ by more than 1. */
    private static Double within(Double difference) {
        return difference == null ? null : Double.valueOf(Math.max(-1, Math.min(1, difference)));
    }
}
