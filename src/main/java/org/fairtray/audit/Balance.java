package org.fairtray.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.design.Fault;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Treatments with unequal numbers of trays, and a control that wasn't sown.
 *
 * <p>Of n_1, n_2, ... trays, differences between treatments vary on average by the harmonic mean's reciprocal; the
 * harmonic over the plain mean is the efficiency beside equal numbers (Cochran and Cox 1957, section 4.2, from memory).
 */
final class Balance {
    /** As much as a tenth of the trays wasted. */
    private static final double WASTED = 0.9;

    private Balance() {}

    static List<Fault> of(Structure structure) {
        var trial = structure.trial();
        var trays = structure.trays();
        var faults = new ArrayList<Fault>();
        unequal(trial, trays).or(() -> notSown(structure)).ifPresent(faults::add);
        for (Factor factor : trial.factors()) {
            noControl(trial, trays, factor).ifPresent(faults::add);
        }
        return faults;
    }

    /** How many trays each sown treatment has. */
    static Map<Treatment, Integer> trays(List<Tray> trays) {
        Map<Treatment, Integer> numbers = new LinkedHashMap<>();
        trays.forEach(t -> numbers.merge(t.treatment(), 1, Integer::sum));
        return numbers;
    }

    /** The efficiency beside equal numbers, from 0 to 1. */
    static double efficiency(List<Tray> trays) {
        var numbers = trays(trays).values();
        double reciprocals = numbers.stream().mapToDouble(n -> 1.0 / n).sum();
        return numbers.size() / reciprocals * numbers.size() / trays.size();
    }

    private static Optional<Fault> unequal(Trial trial, List<Tray> trays) {
        var numbers = trays(trays);
        var most = numbers.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow();
        var fewest =
                numbers.entrySet().stream().min(Map.Entry.comparingByValue()).orElseThrow();
        if (most.getValue() - fewest.getValue() < 2 || efficiency(trays) >= WASTED) {
            return Optional.empty();
        }
        return Optional.of(new Fault(
                Fault.Kind.UNBALANCED,
                trial.factorNames().stream()
                        .filter(f ->
                                !most.getKey().level(f).equals(fewest.getKey().level(f)))
                        .toList(),
                List.of(),
                most.getKey().describe() + " has " + most.getValue() + " trays and "
                        + fewest.getKey().describe() + " only " + fewest.getValue()
                        + ": differences are as unsure as with "
                        + Math.round(efficiency(trays) * trays.size()) + " trays shared out equally, not "
                        + trays.size()
                        + ".",
                "Give each treatment as many trays as the others, about "
                        + Math.round((double) trays.size() / numbers.size()) + "."));
    }

    private static Optional<Fault> notSown(Structure structure) {
        var trial = structure.trial();
        var sown = trays(structure.trays()).keySet();
        var all = trial.treatments();
        boolean interactions = trial.factors().size() > 1 && trial.choices().interactions() > 1;
        if (!interactions || sown.size() >= all.size() || structure.isFraction()) {
            return Optional.empty();
        }
        var missing = all.stream()
                .filter(t -> !sown.contains(t))
                .map(Treatment::describe)
                .toList();
        return Optional.of(new Fault(
                Fault.Kind.UNBALANCED,
                trial.factorNames(),
                List.of(),
                "No tray got " + String.join("; or ", missing)
                        + ", so whether one factor's effect depends on another can't be seen in full.",
                "Sow what is missing, or say under never that it is not made."));
    }

    private static Optional<Fault> noControl(Trial trial, List<Tray> trays, Factor factor) {
        String control = trial.controlLevel(factor);
        var sown = PartlyConfounded.levels(trays, factor.name());
        if (sown.contains(control) || sown.stream().distinct().count() < 2) {
            return Optional.empty();
        }
        return Optional.of(new Fault(
                Fault.Kind.NO_CONTROL,
                List.of(factor.name()),
                List.of(),
                "No tray got " + factor.name() + " " + factor.describe(control)
                        + ", which the others are to be compared with.",
                "Sow some trays with " + factor.name() + " " + factor.describe(control)
                        + " among the others, as many as of any other level; or name another level under control."));
    }
}
