package org.fairtray.followup;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Trend;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Which factors a follow-up varies again, from the verdicts on the question's own outcome. More is taken for better.
 *
 * <ul>
 *   <li>open (cannot tell): kept, with the levels that are still in the race;
 *   <li>changed, and some level may be better than the best, or worse, by what is worthwhile: kept with those in the race;
 *   <li>changed, best somewhere inside what was tried: kept, with levels around the best;
 *   <li>changed together with an open factor: kept, with the control and the best;
 *   <li>changed otherwise: all trays get the best level;
 *   <li>no worthwhile change: all trays get the control.
 * </ul>
 */
final class Decisions {
    private static final String CHANGED = "changed";
    private static final String NO_CHANGE = "no worthwhile change";

    private final Trial trial;
    private final Findings.OutcomeFindings outcome;
    private final double worthwhile;

    Decisions(Trial trial, Findings.OutcomeFindings outcome, double worthwhile) {
        this.trial = trial;
        this.worthwhile = worthwhile;
        this.outcome = outcome;
    }

    /** One for each factor, in the plan's order. */
    List<Decision> all() {
        var decisions = trial.factors().stream().map(this::decision).collect(Collectors.toList());
        if (decisions.stream().noneMatch(Decision::kept)) {
            for (int i = 0; i < decisions.size(); i++) {
                decisions.set(i, furtherOn(trial.factors().get(i), decisions.get(i)));
            }
        }
        return withMadeLevels(decisions);
    }

    private Optional<String> verdict(Factor factor) {
        return outcome.verdicts().stream()
                .filter(v -> v.factor().equals(factor.name()))
                .map(Findings.Verdict::verdict)
                .findFirst();
    }

    private Decision decision(Factor factor) {
        var ranking = ranking(factor);
        var verdict = verdict(factor);
        if (verdict.filter(CHANGED::equals).isPresent()) {
            return changed(factor, ranking);
        }
        if (verdict.filter(NO_CHANGE::equals).isPresent()) {
            String control = trial.controlLevel(factor);
            return Decision.settle(
                    factor.name(), control, "made no worthwhile change; all trays get " + factor.describe(control));
        }
        var race = ranking.bestFirst().isEmpty() ? factor.levels() : ranking.inTheRace();
        return race.size() < 2 || race.size() == factor.levels().size()
                ? Decision.keep(factor.name(), factor.levels(), "is still open")
                : Decision.keep(
                        factor.name(),
                        race,
                        "is still open; left out are levels that were worse than the best: "
                                + factor.levels().stream()
                                        .filter(l -> !race.contains(l))
                                        .map(factor::describe)
                                        .collect(Collectors.joining(", ")));
    }

    private Ranking ranking(Factor factor) {
        return new Ranking(outcome, factor, trial.choices().alpha(), worthwhile);
    }

    private Decision changed(Factor factor, Ranking ranking) {
        var best = ranking.bestFirst().get(0);
        var turn = outcome.best().stream()
                .filter(b -> b.factor().equals(factor.name()) && b.inside() && b.level() != null)
                .findFirst();
        if (turn.isPresent()) {
            return around(factor, turn.get());
        }
        var open = openPartners(factor);
        String control = trial.controlLevel(factor);
        if (!open.isEmpty() && !best.equals(control)) {
            return Decision.keep(
                    factor.name(),
                    factor.levels().stream()
                            .filter(l -> l.equals(best) || l.equals(control))
                            .toList(),
                    "changed, but acts together with " + String.join(" and ", open)
                            + ", which is still open; its control and its best level stay");
        }
        var race = ranking.inTheRace();
        String others =
                race.stream().filter(l -> !l.equals(best)).map(factor::describe).collect(Collectors.joining(", "));
        if (!ranking.isSettled()) {
            return Decision.keep(
                    factor.name(),
                    race,
                    "changed, but whether " + factor.describe(best) + " is better than " + others + " is still open");
        }
        return Decision.settle(
                factor.name(),
                best,
                "changed; all trays get its best level, " + factor.describe(best)
                        + (others.isEmpty() ? "" : ", which no worthwhile difference sets apart from " + others));
    }

    private List<String> openPartners(Factor factor) {
        return outcome.interactions().stream()
                .filter(i -> i.factors().contains(factor.name()))
                .flatMap(i -> i.factors().stream())
                .filter(f -> !f.equals(factor.name()))
                .filter(f -> verdict(trial.factor(f))
                        .filter(v -> v.equals(CHANGED) || v.equals(NO_CHANGE))
                        .isEmpty())
                .distinct()
                .toList();
    }

    private Decision around(Factor factor, Trend.Best turn) {
        var steps = new Steps(factor);
        var levels = steps.around(turn.level(), turn.low(), turn.high());
        String at = "its best level seems to lie inside what was tried, near "
                + factor.describe(steps.near(turn.level()).get(0));
        return levels.size() > 1
                ? Decision.keep(factor.name(), levels, "changed, and " + at + "; these lie around it")
                : Decision.settle(factor.name(), levels.get(0), "changed, and " + at + "; all trays get that");
    }

    /** Where nothing else is open: on from a largest level that was the best. */
    private Decision furtherOn(Factor factor, Decision decision) {
        var level = decision.levels().get(0);
        if (!verdict(factor).filter(CHANGED::equals).isPresent()
                || !factor.numeric()
                || !Steps.isHighest(factor, level)
                || Double.parseDouble(level) == 0) {
            return decision;
        }
        String beyond = Steps.beyond(factor);
        return Decision.keep(
                factor.name(),
                List.of(level, beyond),
                "changed, and its largest level was the best, so more may be better still: " + factor.describe(beyond)
                        + " is new. Mind what that asks of people, shelves and seed");
    }

    /** Settled levels that may not meet give way to the next best. */
    private List<Decision> withMadeLevels(List<Decision> decisions) {
        var settled = new LinkedHashMap<String, String>();
        var made = new ArrayList<Decision>();
        for (var decision : decisions) {
            if (decision.kept()) {
                made.add(decision);
                continue;
            }
            var level = Stream.concat(
                            decision.levels().stream(), ranking(trial.factor(decision.factor())).bestFirst().stream())
                    .filter(l -> trial.made(with(settled, decision.factor(), l)))
                    .findFirst()
                    .orElse(decision.levels().get(0));
            settled.put(decision.factor(), level);
            made.add(
                    level.equals(decision.levels().get(0))
                            ? decision
                            : Decision.settle(
                                    decision.factor(),
                                    level,
                                    decision.why()
                                            + ", were it not never made with the levels of the others; so all get "
                                            + trial.factor(decision.factor()).describe(level)));
        }
        return List.copyOf(made);
    }

    private static Treatment with(Map<String, String> settled, String factor, String level) {
        return new Treatment(settled).with(new Treatment(Map.of(factor, level)));
    }
}
