package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.design.Fault;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** Factors that go partly together with a place or with another factor, more than the numbers of trays make them. */
final class PartlyConfounded {
    /** A tenth of what a factor could show is as much as a tenth of its trays. */
    private static final double WORTH_SAYING = 0.1;

    private static final double WHOLLY = 1 - 1e-7;

    private final Trial trial;
    private final List<Tray> trays;

    private PartlyConfounded(Trial trial, List<Tray> trays) {
        this.trial = trial;
        this.trays = trays;
    }

    static List<Fault> of(Trial trial, List<Tray> trays) {
        var look = new PartlyConfounded(trial, trays);
        var faults = new ArrayList<Fault>();
        for (Factor factor : trial.factors()) {
            look.withPlace(factor).ifPresent(faults::add);
            faults.addAll(look.withFactors(factor));
        }
        return faults;
    }

    static List<String> levels(List<Tray> trays, String factor) {
        return trays.stream().map(t -> t.treatment().level(factor)).toList();
    }

    static List<String> units(Trial trial, List<Tray> trays, String level) {
        return trays.stream().map(t -> trial.place().unit(level, t.stand())).toList();
    }

    /** The outermost place level. */
    private Optional<Fault> withPlace(Factor factor) {
        var place = trial.place();
        return place.names().stream()
                .filter(l -> !l.equals(factor.appliedTo()) && !place.contains(factor.appliedTo(), l))
                .filter(l -> !place.isTray(l) && !trial.moves(l))
                .flatMap(l -> withPlace(factor, l).stream())
                .findFirst();
    }

    private Optional<Fault> withPlace(Factor factor, String level) {
        var overlap = Overlap.of(levels(trays, factor.name()), units(trial, trays, level));
        return worthSaying(overlap)
                ? Optional.of(new Fault(
                        Fault.Kind.CONFOUNDED,
                        List.of(factor.name()),
                        List.of(level),
                        factor.name() + " and " + level + " go partly together: " + percent(overlap)
                                + " of what the trays could show of " + factor.name()
                                + " can't be told from differences between one " + level + " and another.",
                        "Put every level of " + factor.name() + " equally often into every " + level + "."))
                : Optional.empty();
    }

    private List<Fault> withFactors(Factor factor) {
        var faults = new ArrayList<Fault>();
        for (Factor earlier : trial.factors()) {
            if (earlier.equals(factor)) {
                break;
            }
            var overlap = Overlap.of(levels(trays, factor.name()), levels(trays, earlier.name()));
            if (worthSaying(overlap) && !keptApart(factor, earlier)) {
                faults.add(new Fault(
                        Fault.Kind.CONFOUNDED,
                        List.of(earlier.name(), factor.name()),
                        List.of(),
                        factor.name() + " and " + earlier.name() + " go partly together: " + percent(overlap)
                                + " of what the trays could show of " + factor.name() + " can't be told from "
                                + earlier.name() + ".",
                        "Sow every level of " + factor.name() + " equally often with every level of " + earlier.name()
                                + "."));
            }
        }
        return faults;
    }

    private static boolean worthSaying(Overlap overlap) {
        return overlap.share() < WHOLLY && overlap.excess() >= WORTH_SAYING;
    }

    private static String percent(Overlap overlap) {
        return Math.round(100 * overlap.share()) + " %";
    }

    /** Whether the plan itself leaves out combinations of the two. */
    private boolean keptApart(Factor one, Factor other) {
        return trial.never().stream().anyMatch(n -> n.level(one.name()) != null && n.level(other.name()) != null);
    }
}
