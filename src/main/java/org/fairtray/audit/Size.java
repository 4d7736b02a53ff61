package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.design.Fault;
import org.fairtray.design.Structure;
import org.fairtray.sizing.Assumptions;
import org.fairtray.sizing.Option;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.StrataPower;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Trial;

/**
 * Whether a trial has enough trays to see what its plan calls worthwhile. It is called too small only where it is so without
 * any guess of how trays and places differ; the powers that are then told rest on what sizing takes for granted, so that
 * both tell the same.
 */
final class Size {
    private Size() {}

    static List<Fault> of(Structure structure) {
        var faults = new ArrayList<Fault>();
        var trial = structure.trial();
        boolean counted = trial.outcomes().get(0).match(c -> true, m -> false);
        if (counted && trial.expectations().worthwhile().isPresent()) {
            double worthwhile = trial.expectations().worthwhile().getAsDouble();
            for (Factor factor : trial.factors()) {
                StrataPower.of(structure, factor)
                        .flatMap(p -> tooSmall(trial, factor, p, worthwhile))
                        .ifPresent(faults::add);
            }
        }
        return faults;
    }

    private static Optional<Fault> tooSmall(Trial trial, Factor factor, StrataPower power, double worthwhile) {
        double wanted = power.assumptions().power();
        return power.power(worthwhile) >= wanted
                ? Optional.empty()
                : Optional.of(told(factor, usual(power, trial), worthwhile, wanted));
    }

    private static StrataPower usual(StrataPower power, Trial trial) {
        return new StrataPower(power.test(), Assumptions.of(trial), Option.of(trial.counting()));
    }

    private static Fault told(Factor factor, StrataPower power, double worthwhile, double wanted) {
        double has = power.power(worthwhile);
        var smallest = power.smallest();
        String unit = power.test().unit();
        return new Fault(
                Fault.Kind.TOO_SMALL,
                List.of(factor.name()),
                power.test().onTrays() ? List.of() : List.of(unit),
                "A change by " + factor.name() + " of " + points(worthwhile)
                        + ", which the plan calls worthwhile, would be seen in about "
                        + percent(Math.floor(100 * has) / 100)
                        + " of such trials, not in " + percent(wanted) + ". "
                        + (smallest.isPresent()
                                ? "The smallest change that would be is "
                                        + points(Math.ceil(100 * smallest.getAsDouble()) / 100) + "."
                                : "No change would be.")
                        + power.assumptions().guess().map(g -> " " + g).orElse(""),
                remedy(factor, unit, power, worthwhile, wanted));
    }

    private static String remedy(Factor factor, String unit, StrataPower power, double worthwhile, double wanted) {
        double now = power.test().unitsPerLevel();
        var needed = power.unitsNeeded(worthwhile, wanted, SizedLayout.MOST_TIMES);
        String more = needed.isPresent()
                ? "Give each level of " + factor.name() + " about " + needed.getAsInt() + " × " + unit + " instead of "
                        + Math.round(now)
                : "Even " + SizedLayout.MOST_TIMES + " times as many trays would not do";
        return more + "; or ask for a larger change. More seeds in the same trays help little.";
    }

    private static String points(double difference) {
        return Math.round(100 * difference) + " points";
    }

    private static String percent(double share) {
        return Math.round(100 * share) + " %";
    }
}
