package org.fairtray.audit;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.fairtray.design.Fault;
import org.fairtray.design.Restrictions;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** Restrictions that the plan asks for and the trays don't keep. */
final class Broken {
    private Broken() {}

    /** @param whole whether these are all trays; of some, whether places are shared out evenly can't be said */
    static List<Fault> of(Trial trial, List<Tray> trays, boolean whole) {
        return trial.restrictions().stream()
                .filter(r -> whole || r.kind() == Restriction.Kind.APART)
                .flatMap(r -> of(trial, trays, r).stream())
                .toList();
    }

    private static Optional<Fault> of(Trial trial, List<Tray> trays, Restriction restriction) {
        return Restrictions.amiss(trial, trays, restriction)
                .map(amiss -> new Fault(
                        Fault.Kind.RESTRICTION_BROKEN,
                        factors(trial, restriction),
                        restriction.over().stream().toList(),
                        "The plan asks that " + restriction.words() + ". Here " + amiss + ".",
                        "Let lay draw the layout, or take the restriction out of the plan before sowing."));
    }

    /** The restriction that such a fault is about. */
    static Restriction restriction(Trial trial, Fault fault) {
        return trial.restrictions().stream()
                .filter(r -> factors(trial, r).equals(fault.factors())
                        && r.over().stream().toList().equals(fault.places())
                        && fault.sentence().contains(r.words()))
                .findFirst()
                .orElseThrow();
    }

    /** Those of the smallest units last: they are the ones to exchange. */
    private static List<String> factors(Trial trial, Restriction restriction) {
        return trial.factorNames().contains(restriction.of())
                ? List.of(restriction.of())
                : trial.factors().stream()
                        .sorted(Comparator.comparingInt(
                                f -> trial.place().key(trial.appliedLevel(f)).size()))
                        .map(f -> f.name())
                        .toList();
    }
}
