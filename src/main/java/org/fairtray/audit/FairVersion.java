package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.design.Fault;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Trial;

/**
 * The fair version of a trial in which every treatment has one tray: the same treatments, each once in each of several
 * sets of the same place, over two shelves.
 */
final class FairVersion {
    private static final int SHELVES = 2;
    private static final int MOST_SETS_PER_SHELF = 8;

    private FairVersion() {}

    /**
     * Whether every treatment has one tray, the commonest trial there is, of at least two treatments, and no factor can be
     * judged all the same by the trays that share its levels.
     */
    static boolean isWanted(Structure structure) {
        return structure.trays().size() > 1
                && structure.repeatsNoTreatment()
                && structure.trial().factors().stream()
                        .allMatch(f -> structure.isUntestable(new Term(List.of(f.name()))));
    }

    /**
     * The plan with as many sets as its question needs, two on each of two shelves at the least; where the plan doesn't say
     * what it expects, or where eight on each would not do, that many. Empty where it isn't wanted or one set doesn't fit
     * its place.
     */
    static Optional<Trial> of(Trial trial, Layout layout) {
        if (!isWanted(Structure.of(trial, layout.trays()))) {
            return Optional.empty();
        }
        Optional<Trial> fair = Optional.empty();
        for (int sets = 2; sets <= MOST_SETS_PER_SHELF; sets++) {
            var wider = repeated(trial, sets);
            var faults = faults(wider);
            if (faults.isEmpty()) {
                return fair;
            }
            fair = Optional.of(wider);
            if (faults.get().stream().noneMatch(f -> f.kind() == Fault.Kind.TOO_SMALL)) {
                return fair;
            }
        }
        return Optional.of(repeated(trial, 2));
    }

    private static Optional<List<Fault>> faults(Trial trial) {
        try {
            var trays = Randomisation.of(trial).draw(Generator.of(1)).trays();
            return Optional.of(Size.of(Structure.of(trial, trays)));
        } catch (DoesNotFitException e) {
            return Optional.empty();
        }
    }

    /** The place without what there is one of outside the innermost level, within sets, within shelves. */
    private static Trial repeated(Trial trial, int sets) {
        var old = trial.place().levels();
        var inner = new ArrayList<Place.Level>();
        for (int i = 0; i < old.size(); i++) {
            String name = old.get(i).name();
            boolean named = trial.factors().stream().anyMatch(f -> f.appliedTo().equals(name))
                    || trial.restrictions().stream()
                            .anyMatch(r -> r.over().filter(name::equals).isPresent())
                    || old.stream()
                            .anyMatch(l -> l.across().filter(name::equals).isPresent());
            if (old.get(i).count() > 1 || named || i == old.size() - 1) {
                inner.add(old.get(i));
            }
        }
        var taken = new ArrayList<>(inner.stream().map(Place.Level::name).toList());
        taken.addAll(trial.factorNames());
        trial.batches().forEach(b -> taken.add(b.name()));
        var levels = new ArrayList<Place.Level>();
        levels.add(new Place.Level(free(taken, "shelf", "rack"), SHELVES, Optional.empty()));
        taken.add(levels.get(0).name());
        levels.add(new Place.Level(free(taken, "stack", "set"), sets, Optional.empty()));
        levels.addAll(inner);
        return trial.at(new Place(levels), OptionalInt.empty());
    }

    private static String free(List<String> taken, String name, String other) {
        String free = taken.contains(name) ? other : name;
        for (int i = 2; taken.contains(free); i++) {
            free = other + " " + i;
        }
        return free;
    }
}
