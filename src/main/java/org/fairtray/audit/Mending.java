package org.fairtray.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.fairtray.design.Fault;
import org.fairtray.design.Restrictions;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * The smallest change that takes a fault away and brings no other: every change of one kind is tried on the layout, and the
 * layout is audited again. Where one change isn't enough the best is made and the next is looked for, up to a few; so of
 * several changes it may not be the very smallest number.
 */
final class Mending {
    private static final int MOST_MOVES = 4;
    private static final int AUDITED_AGAIN = 8;

    private final Trial trial;
    private final List<Tray> trays;
    private final List<Fault> before;
    private final Function<List<Tray>, List<Fault>> audit;

    /**
     * @param before the faults of these trays
     * @param audit the faults of others
     */
    Mending(Trial trial, List<Tray> trays, List<Fault> before, Function<List<Tray>, List<Fault>> audit) {
        this.trial = trial;
        this.trays = trays;
        this.before = before;
        this.audit = audit;
    }

    /** The change in words, such as "swap T07 and T15"; empty where none of these few does it. */
    Optional<String> of(Fault fault, ToDoubleFunction<List<Tray>> regularity) {
        return switch (fault.kind()) {
            case CONFOUNDED, FALSE_REPLICATION -> apart(fault);
            case PATTERNED -> search(fault, swaps(factor(fault)), regularity);
            case UNBALANCED -> search(fault, Moves.changes(trial), t -> -Balance.efficiency(t));
            case RESTRICTION_BROKEN -> {
                var restriction = Broken.restriction(trial, fault);
                yield search(fault, swaps(factor(fault)), t -> Restrictions.breaches(trial, t, restriction));
            }
            case NO_REPLICATION, TOO_SMALL, NO_CONTROL, NOT_RANDOMISED -> Optional.empty();
        };
    }

    private Factor factor(Fault fault) {
        return trial.factor(fault.factors().get(fault.factors().size() - 1));
    }

    private Optional<String> apart(Fault fault) {
        var factor = factor(fault);
        if (fault.places().stream().anyMatch(l -> !trial.place().has(l))) {
            return Optional.empty(); // a batch: no exchange of trays makes a second one
        }
        if (!fault.places().isEmpty()) {
            var units = PartlyConfounded.units(trial, trays, fault.places().get(0));
            return search(
                    fault,
                    swaps(factor),
                    t -> Overlap.of(PartlyConfounded.levels(t, factor.name()), units)
                            .share());
        }
        String other = fault.factors().get(0);
        return search(
                fault,
                Moves.swaps(trial, Set.of(factor.name()), together(factor).size() == 1),
                t -> Overlap.of(PartlyConfounded.levels(t, factor.name()), PartlyConfounded.levels(t, other))
                        .share());
    }

    private Moves swaps(Factor factor) {
        return Moves.swaps(trial, together(factor), true);
    }

    /** The factors that are applied to the same units. */
    private Set<String> together(Factor factor) {
        return trial.factors().stream()
                .filter(f -> trial.appliedLevel(f).equals(trial.appliedLevel(factor)))
                .map(Factor::name)
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private record Scored(Moves.Move move, double badness) {}

    private Optional<String> search(Fault fault, Moves moves, ToDoubleFunction<List<Tray>> badness) {
        var made = new ArrayList<String>();
        var now = trays;
        double bad = badness.applyAsDouble(now);
        while (made.size() < MOST_MOVES) {
            var scored = moves.of(now).stream()
                    .map(m -> new Scored(m, badness.applyAsDouble(m.after())))
                    .filter(s -> s.badness < Double.POSITIVE_INFINITY)
                    .sorted(Comparator.comparingDouble(Scored::badness))
                    .limit(AUDITED_AGAIN)
                    .toList();
            if (scored.isEmpty() || scored.get(0).badness >= bad) {
                return Optional.empty();
            }
            for (var one : scored) {
                if (one.badness < bad && mended(fault, one.move.after())) {
                    made.add(one.move.words());
                    return Optional.of(String.join(", then ", made));
                }
            }
            made.add(scored.get(0).move.words());
            now = scored.get(0).move.after();
            bad = scored.get(0).badness;
        }
        return Optional.empty();
    }

    private boolean mended(Fault fault, List<Tray> after) {
        return audit.apply(after).stream()
                .allMatch(f -> !same(f, fault) && before.stream().anyMatch(b -> same(b, f)));
    }

    private static boolean same(Fault one, Fault other) {
        return one.kind() == other.kind()
                && one.factors().equals(other.factors())
                && one.places().equals(other.places());
    }
}
