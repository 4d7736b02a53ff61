package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.fairtray.design.Fault;
import org.fairtray.design.Structure;
import org.fairtray.sizing.StrataPower;
import org.fairtray.trial.Factor;

/** Whether a trial has enough trays to see what its plan calls worthwhile. */
final class Size {
    /** The power wanted where the plan doesn't say; common practice, no source. */
    private static final double USUAL_POWER = 0.8;

    /** Nobody sows so many times as much. */
    private static final int MOST_TIMES = 50;

    private Size() {}

    static List<Fault> of(Structure structure) {
        var faults = new ArrayList<Fault>();
        var trial = structure.trial();
        boolean counted = trial.outcomes().get(0).match(c -> true, m -> false);
        if (counted && trial.expectations().worthwhile().isPresent()) {
            double worthwhile = trial.expectations().worthwhile().getAsDouble();
            for (Factor factor : trial.factors()) {
                StrataPower.of(structure, factor)
                        .flatMap(p -> tooSmall(structure, factor, p, worthwhile))
                        .ifPresent(faults::add);
            }
        }
        return faults;
    }

    private static Optional<Fault> tooSmall(Structure structure, Factor factor, StrataPower power, double worthwhile) {
        double wanted = structure.trial().expectations().power().orElse(USUAL_POWER);
        double has = power.power(worthwhile);
        if (has >= wanted) {
            return Optional.empty();
        }
        var smallest = power.smallest(wanted);
        String unit = power.unit();
        return Optional.of(new Fault(
                Fault.Kind.TOO_SMALL,
                List.of(factor.name()),
                power.onTrays() ? List.of() : List.of(unit),
                "A change by " + factor.name() + " of " + points(worthwhile)
                        + ", which the plan calls worthwhile, would be seen in about "
                        + percent(Math.floor(100 * has) / 100)
                        + " of such trials, not in " + percent(wanted) + ". "
                        + (smallest.isPresent()
                                ? "The smallest change that would be is "
                                        + points(Math.ceil(100 * smallest.getAsDouble()) / 100) + "."
                                : "No change would be."),
                remedy(factor, unit, power, worthwhile, wanted)));
    }

    private static String remedy(Factor factor, String unit, StrataPower power, double worthwhile, double wanted) {
        double now = power.unitsPerLevel();
        var needed = needed(power, worthwhile, wanted);
        String more = needed.isPresent()
                ? "Give each level of " + factor.name() + " about " + needed.getAsInt() + " × " + unit + " instead of "
                        + Math.round(now)
                : "Even " + MOST_TIMES + " times as many trays would not do";
        return more + "; or ask for a larger change. More seeds in the same trays help little.";
    }

    private static OptionalInt needed(StrataPower power, double worthwhile, double wanted) {
        double now = power.unitsPerLevel();
        for (int units = (int) Math.floor(now) + 1; units <= MOST_TIMES * now; units++) {
            if (power.powerOf(worthwhile, units / now) >= wanted) {
                return OptionalInt.of(units);
            }
        }
        return OptionalInt.empty();
    }

    private static String points(double difference) {
        return Math.round(100 * difference) + " points";
    }

    private static String percent(double share) {
        return Math.round(100 * share) + " %";
    }
}
