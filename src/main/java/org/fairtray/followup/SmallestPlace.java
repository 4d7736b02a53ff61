package org.fairtray.followup;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.design.Faults;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Step;
import org.fairtray.design.Structure;
import org.fairtray.sizing.Option;
import org.fairtray.sizing.StrataPower;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Trial;

/**
 * The smallest part of a place on which a trial would find what is worth finding: the place with fewer units at some of
 * its levels, fewest trays first. Only parts that hold full sets are tried; a place on which a layout has to be searched
 * for is used whole.
 */
final class SmallestPlace {
    /** Nobody sows the same trial so often. */
    static final int MOST_SOWINGS = 10;

    /** Parts of a place that are tried; of more, those with fewer units at the outermost levels alone. */
    private static final int MOST_PARTS = 300;

    /** A loss of power that nobody would notice. */
    private static final double NO_MATTER = 0.02;

    private final double worthwhile;
    private final double power;

    /**
     * @param worthwhile the difference of rates worth finding
     * @param power the chance wanted
     */
    SmallestPlace(double worthwhile, double power) {
        this.worthwhile = worthwhile;
        this.power = power;
    }

    /** A trial on its bench, and what it would see; one for each factor where the first outcome is a count. */
    record Placed(Trial trial, int trays, List<Reach> reach) {}

    /**
     * The trial on the smallest part that finds every difference as often as wanted, or where the whole place doesn't, as
     * often as that, less {@value #NO_MATTER}; empty where not even the whole holds it fairly.
     */
    Optional<Placed> smallest(Trial trial) {
        var whole = placed(trial.at(trial.place(), OptionalInt.empty()), true);
        if (whole.isEmpty() || whole.get().reach().isEmpty()) {
            return whole;
        }
        return parts(trial.place()).stream()
                .filter(p -> p.trays() < whole.get().trays())
                .flatMap(p -> placed(trial.at(p, OptionalInt.empty()), false).stream())
                .filter(p -> isEnough(p, whole.get()))
                .findFirst()
                .or(() -> whole);
    }

    private boolean isEnough(Placed part, Placed whole) {
        return part.reach().size() == whole.reach().size()
                && IntStream.range(0, whole.reach().size())
                        .allMatch(i -> part.reach().get(i).power()
                                >= Math.min(power, whole.reach().get(i).power() - NO_MATTER));
    }

    private Optional<Placed> placed(Trial trial, boolean searching) {
        try {
            var randomisation = Randomisation.of(trial);
            if (!searching && randomisation.steps().stream().anyMatch(Step::searched)) {
                return Optional.empty();
            }
            var trays = randomisation.draw(Generator.of(1)).trays();
            var structure = Structure.of(trial, trays);
            return Faults.of(structure).isEmpty()
                    ? Optional.of(new Placed(trial, trays.size(), reach(structure)))
                    : Optional.empty();
        } catch (DoesNotFitException tooSmall) {
            return Optional.empty();
        }
    }

    private List<Reach> reach(Structure structure) {
        boolean counted = structure.trial().outcomes().get(0).match(c -> true, m -> false);
        return counted
                ? structure.trial().factors().stream()
                        .flatMap(f ->
                                StrataPower.of(structure, f)
                                        .map(p -> reach(
                                                f,
                                                p,
                                                Option.of(structure.trial().counting())))
                                        .stream())
                        .toList()
                : List.of();
    }

    private Reach reach(Factor factor, StrataPower by, Option once) {
        Integer sowings = null;
        for (int times = MOST_SOWINGS;
                times >= 1 && by.with(once.repeated(times)).power(worthwhile) >= power;
                times--) {
            sowings = times;
        }
        return new Reach(
                factor.name(),
                worthwhile,
                by.power(worthwhile),
                by.test().unit(),
                by.test().unitsPerLevel(),
                sowings);
    }

    private static List<Place> parts(Place place) {
        for (int shrunk = place.levels().size(); shrunk > 0; shrunk--) {
            long parts = place.levels().stream()
                    .limit(shrunk)
                    .mapToLong(Place.Level::count)
                    .reduce(1, Math::multiplyExact);
            if (parts <= MOST_PARTS) {
                return parts(place, shrunk);
            }
        }
        return List.of();
    }

    private static List<Place> parts(Place place, int shrunk) {
        List<List<Place.Level>> all = List.of(List.of());
        for (int i = 0; i < place.levels().size(); i++) {
            var level = place.levels().get(i);
            var longer = new ArrayList<List<Place.Level>>();
            for (var start : all) {
                for (int count = i < shrunk ? 1 : level.count(); count <= level.count(); count++) {
                    var levels = new ArrayList<>(start);
                    levels.add(new Place.Level(level.name(), count, level.across()));
                    longer.add(levels);
                }
            }
            all = longer;
        }
        return all.stream()
                .map(Place::new)
                .sorted(Comparator.comparingInt(Place::trays))
                .toList();
    }
}
