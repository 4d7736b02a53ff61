package org.fairtray.analysis.soundness;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Tray;

/**
 * Whether who counted explains what is left over between trays of the same place: F of the counters beside all terms. A
 * tray that several people counted, or that doesn't say, is a kind of its own.
 */
final class CounterCheck {
    private static final String KIND = "counters";

    private CounterCheck() {}

    /** Empty where fewer than two people are named. */
    static Optional<DataCheck> of(Leftovers rest, Map<String, ? extends Collection<String>> counters) {
        var names = new TreeSet<String>();
        counters.values().forEach(names::addAll);
        return names.size() < 2 ? Optional.empty() : Optional.of(check(rest, counters, names));
    }

    private static DataCheck check(
            Leftovers rest, Map<String, ? extends Collection<String>> counters, Collection<String> names) {
        var who = Grouping.by(rest.structure().trays().stream()
                .map(Tray::code)
                .map(code -> counters.containsKey(code) ? String.join(", ", counters.get(code)) : "")
                .toList());
        var columns = who.indicators();
        int adds = rest.ofTrays().adds(columns);
        if (adds == 0) {
            return DataCheck.notMade(
                    KIND,
                    "Whether counters differ can't be told: who counted goes together with treatment or place. Next time"
                            + " let each of them count some trays of everything.");
        }
        String partly = adds < who.groups() - 1 ? " Some of them can't be told from treatment or place." : "";
        return rest.ofTrays()
                .added(columns)
                .map(t -> t.p() < Soundness.LEVEL
                        ? differ(t.f(), t.p(), names, partly)
                        : DataCheck.sound(
                                KIND, "f", t.f(), t.p(), "Who counted makes no difference that shows." + partly))
                .orElseGet(() -> DataCheck.notMade(
                        KIND,
                        "Whether counters differ can't be told: the trays leave too little to hold them against."));
    }

    private static DataCheck differ(double f, double p, Collection<String> names, String partly) {
        return new DataCheck(
                KIND,
                false,
                List.of(),
                "f",
                f,
                p,
                "What was read depends on who read it (" + String.join(", ", names) + "; " + Words.p(p) + ")." + partly,
                "Agree on what counts, let each of them count the same two trays, and give whole blocks to one counter.");
    }
}
