package org.fairtray.design;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;

/**
 * The faults of a layout that show without any reading: a factor that differs only where a place or another factor
 * differs, units that are taken for more than they are, and nothing to hold a difference against.
 *
 * <p>Source: Hurlbert (1984), Pseudoreplication and the design of ecological field experiments, Ecological Monographs 54,
 * 187-211; Fisher (1935), The Design of Experiments, chapter 4.
 */
public final class Faults {
    private static final double WHOLLY = 1 - 1e-7;

    private final Structure structure;
    /** Factors of a fraction that leaves nothing over: said once for all. */
    private final List<Factor> saturated = new ArrayList<>();

    private Faults(Structure structure) {
        this.structure = structure;
    }

    /** The faults of a layout, in the order of the plan's factors. */
    public static List<Fault> of(Structure structure) {
        var search = new Faults(structure);
        var faults = new ArrayList<Fault>();
        for (Factor factor : structure.trial().factors()) {
            if (search.levelsSown(factor) < 2) {
                faults.add(search.notVaried(factor));
            } else {
                var withPlace = search.confoundedWithPlace(factor);
                withPlace.ifPresent(faults::add);
                faults.addAll(search.confoundedWithFactors(factor));
                if (search.structure.hasOneBatchEach(factor.name())) {
                    faults.add(search.oneBatchEach(factor));
                } else if (withPlace.isEmpty()) {
                    search.notRepeated(factor).ifPresent(faults::add);
                }
            }
        }
        if (!search.saturated.isEmpty()) {
            faults.add(search.usedUpByAll());
        }
        return List.copyOf(faults);
    }

    private long levelsSown(Factor factor) {
        return structure.trays().stream()
                .map(t -> t.treatment().level(factor.name()))
                .distinct()
                .count();
    }

    private Fault notVaried(Factor factor) {
        return new Fault(
                Fault.Kind.NO_REPLICATION,
                List.of(factor.name()),
                List.of(),
                "Every tray got the same " + factor.name() + ", so there is nothing to compare.",
                "Sow at least two levels of " + factor.name() + ", two trays each or more.");
    }

    private Term main(Factor factor) {
        return new Term(List.of(factor.name()));
    }

    private int number(Term term) {
        return structure.terms().indexOf(term);
    }

    /** The outermost place level that a factor differs with, other than the one it is applied to and those inside it. */
    private Optional<Fault> confoundedWithPlace(Factor factor) {
        var place = structure.trial().place();
        return place.names().stream()
                .filter(l ->
                        !l.equals(factor.appliedTo()) && !place.contains(factor.appliedTo(), l) && !place.isTray(l))
                .filter(l ->
                        structure.units(l).groups() > 1 && !structure.trial().moves(l))
                .filter(l ->
                        structure.decomposition().confoundedWith(number(main(factor)), structure.units(l)) > WHOLLY)
                .findFirst()
                .map(l -> repeatedIn(factor, l) ? falselyRepeated(factor, l) : confounded(factor, l));
    }

    private boolean repeatedIn(Factor factor, String level) {
        int stratum = structure.strataNames().indexOf(level);
        return stratum >= 0
                && structure.decomposition().residualDf(stratum) > 0
                && structure.parts(main(factor)).stream().anyMatch(p -> p.stratum() == stratum);
    }

    private Fault confounded(Factor factor, String level) {
        return new Fault(
                Fault.Kind.CONFOUNDED,
                List.of(factor.name()),
                List.of(level),
                factor.name() + " differs only where " + level
                        + " differs, so nothing can tell which of the two made the" + " difference.",
                "Put every level of " + factor.name() + " into every " + level + ", in random order.");
    }

    private Fault falselyRepeated(Factor factor, String level) {
        int units = structure.units(level).groups();
        int trays = structure.trays().size();
        return new Fault(
                Fault.Kind.FALSE_REPLICATION,
                List.of(factor.name()),
                List.of(level),
                "All trays of one " + level + " got the same " + factor.name() + ", so there are " + units + " × "
                        + level + " to compare, not " + trays + " trays.",
                "Say applied_to: " + level + " in the plan, or give every " + level + " trays of every " + factor.name()
                        + ".");
    }

    private Fault oneBatchEach(Factor factor) {
        var batch = structure.trial().batchOf(factor).orElseThrow();
        return new Fault(
                Fault.Kind.FALSE_REPLICATION,
                List.of(factor.name()),
                List.of(batch.name()),
                "All trays with the same " + factor.name() + " came out of one " + batch.name()
                        + ", so a difference between levels of " + factor.name()
                        + " can't be told from the difference between any one " + batch.name()
                        + " and another. More trays from the same " + batch.name() + " don't repeat it.",
                "Make two " + batch.name() + "s or more for each level of " + factor.name()
                        + " (count: 2 in batches), each for a part of its trays.");
    }

    /** Only with factors that come earlier, so that each pair is said once. */
    private List<Fault> confoundedWithFactors(Factor factor) {
        var faults = new ArrayList<Fault>();
        for (Factor earlier : structure.trial().factors()) {
            if (earlier.equals(factor)) {
                break;
            }
            if (levelsSown(earlier) > 1
                    && structure.decomposition().aliased(number(main(factor)), number(main(earlier)))) {
                faults.add(new Fault(
                        Fault.Kind.CONFOUNDED,
                        List.of(earlier.name(), factor.name()),
                        List.of(),
                        factor.name() + " changes only together with " + earlier.name()
                                + ", so nothing can tell which of the two made the difference.",
                        "Sow every level of " + factor.name() + " with every level of " + earlier.name() + "."));
            }
        }
        return faults;
    }

    private Optional<Fault> notRepeated(Factor factor) {
        var term = main(factor);
        if (!structure.isUntestable(term) || structure.parts(term).isEmpty()) {
            return Optional.empty();
        }
        if (structure.isFraction() && structure.trial().appliedLevel(factor).equals(Place.TRAY)) {
            saturated.add(factor);
            return Optional.empty();
        }
        var batch = structure.batchesOf(factor.name());
        String unit = batch.map(Batch::name).orElseGet(() -> structure.trial().appliedLevel(factor));
        boolean usedUp = batch.isPresent() || isRepeated(unit);
        String mainAlone = structure.trial().choices().interactions() > 1
                        && structure.trial().factors().size() > 1
                ? ", or ask for main effects alone (analysis: {interactions: 1})."
                : ".";
        return Optional.of(new Fault(
                Fault.Kind.NO_REPLICATION,
                List.of(factor.name()),
                unit.equals(Place.TRAY) ? List.of() : List.of(unit),
                usedUp
                        ? "All that one " + unit
                                + " and another can show is used up by other differences, so nothing is left"
                                + " to hold a difference between levels of " + factor.name() + " against."
                        : "No " + unit + " with the same treatment is repeated, so a difference between levels of "
                                + factor.name() + " can't be told from the difference between any two " + unit
                                + "s treated alike.",
                (usedUp ? "Give each level of " + factor.name() + " more " : "Give each treatment at least two ") + unit
                        + "s" + mainAlone));
    }

    /** Every comparison that the trays of a fraction allow is an effect's. */
    private Fault usedUpByAll() {
        int trays = structure.trays().size();
        boolean alone = structure.highestOrder() == 1;
        return new Fault(
                Fault.Kind.NO_REPLICATION,
                saturated.stream().map(Factor::name).toList(),
                List.of(),
                trays + " trays allow " + (trays - 1) + " comparisons, and the factors"
                        + (alone ? "" : ", by themselves and acting together,")
                        + " use up all of them. Each level is on several trays, but nothing is left to hold a difference"
                        + " against.",
                "Lay the trial in twice as many trays, or drop a factor"
                        + (alone ? "" : ", or ask for main effects alone (analysis: {interactions: 1})")
                        + ". As it is, it is a first look only: see which differences are largest, and try these again.");
    }

    /** Whether two units of a level, or more, got the same. */
    private boolean isRepeated(String unit) {
        var trial = structure.trial();
        var given = trial.factors().stream()
                .filter(f -> unit.equals(trial.appliedLevel(f)) || trial.place().contains(trial.appliedLevel(f), unit))
                .map(Factor::name)
                .toList();
        long treatments = structure.trays().stream()
                .map(t -> t.treatment().only(given))
                .distinct()
                .count();
        return treatments < structure.units(unit).groups();
    }
}
