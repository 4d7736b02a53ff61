package org.fairtray.followup;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Interval;
import org.fairtray.trial.Factor;

/** The levels of a factor by what they gave, more being better. */
final class Ranking {
    private final Findings.OutcomeFindings outcome;
    private final Factor factor;
    private final double alpha;
    private final double worthwhile;
    private final Map<String, Double> values = new LinkedHashMap<>();

    /** @param worthwhile the difference that matters, a proportion; of a measure none is known to be too small */
    Ranking(Findings.OutcomeFindings outcome, Factor factor, double alpha, double worthwhile) {
        this.outcome = outcome;
        this.factor = factor;
        this.alpha = alpha;
        this.worthwhile = worthwhile;
        comparisons().forEach(e -> {
            put(e.level(), e.value());
            put(e.against(), e.againstValue());
        });
    }

    private void put(String level, Double value) {
        if (value != null) {
            values.put(level, value);
        }
    }

    /** The levels that something is known of, the best first. */
    List<String> bestFirst() {
        return factor.levels().stream()
                .filter(values::containsKey)
                .sorted(Comparator.comparingDouble(l -> -values.get(l)))
                .toList();
    }

    /** The best level and all that were not shown to be worse, in the factor's order. */
    List<String> inTheRace() {
        var best = bestFirst().get(0);
        return factor.levels().stream().filter(l -> !isWorse(l, best)).toList();
    }

    /** Whether all other levels in the race gave what the best did, but for less than is worthwhile. */
    boolean isSettled() {
        var best = bestFirst().get(0);
        return inTheRace().stream()
                .filter(l -> !l.equals(best))
                .allMatch(l -> between(l, best)
                        .anyMatch(e -> e instanceof Effect.OnRate
                                && e.verdictLow() != null
                                && new Interval(e.verdictLow(), e.verdictHigh()).inside(worthwhile)));
    }

    private boolean isWorse(String level, String best) {
        return between(level, best).anyMatch(e -> e.pAdjusted() != null && e.pAdjusted() <= alpha);
    }

    private Stream<Effect> between(String one, String other) {
        return comparisons().filter(e -> holds(e, one, other) || holds(e, other, one));
    }

    private static boolean holds(Effect effect, String level, String against) {
        return effect.level().equals(level) && effect.against().equals(against);
    }

    private Stream<Effect> comparisons() {
        return Stream.<Effect>concat(outcome.effects().stream(), outcome.pairs().stream())
                .filter(e -> e.factor().equals(factor.name()));
    }
}
