package org.fairtray.design;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * How full sets of the treatments fit into the place: how many sets each group of each step gets, and how many of the
 * outermost units are used where the plan asks for fewer replicates than the place holds.
 *
 * @param trial the trial, with the outermost level of its place cut to what is used
 * @param steps from the largest units to the smallest, with their sets
 */
record Fitting(Trial trial, List<Step> steps) {

    /** @throws DoesNotFitException with every reason at once */
    static Fitting of(Trial trial) {
        var steps = levels(trial).stream().map(l -> Step.of(trial, l)).toList();
        var reasons = new ArrayList<String>();
        reasons.addAll(neverAcross(trial, steps));
        var full = new ArrayList<Step>();
        for (Step step : steps) {
            int most = treatmentNumbers(trial, steps, step).last();
            var faults = faults(trial, steps, step);
            boolean searched = !faults.isEmpty() && canBeSearched(trial, steps, step);
            reasons.addAll(searched ? List.of() : faults);
            full.add(step.withSets(searched ? 0 : step.units() / Math.max(1, most)));
        }
        if (!reasons.isEmpty()) {
            throw new DoesNotFitException(reasons);
        }
        return trial.replicates().isPresent()
                ? reduced(trial, full, trial.replicates().getAsInt())
                : new Fitting(trial, full);
    }

    /** Units around that stay empty would leave gaps, so they must be full; and fewer replicates are cut for one step alone. */
    private static boolean canBeSearched(Trial trial, List<Step> steps, Step step) {
        boolean gaps = steps.stream()
                .filter(s -> trial.place().contains(s.level(), step.level()))
                .anyMatch(s -> gap(trial, steps, s, "", "").isPresent());
        return !gaps
                && treatmentNumbers(trial, steps, step).first() > 0
                && (trial.replicates().isEmpty() || steps.size() == 1)
                && SearchedStep.isPossible(trial, step);
    }

    /** The levels that factors are applied to, largest units first; the last place level counts as the tray. */
    private static List<String> levels(Trial trial) {
        var place = trial.place();
        return trial.factors().stream()
                .map(trial::appliedLevel)
                .distinct()
                .sorted(Comparator.comparing(
                        place::key,
                        Comparator.<List<Integer>>comparingInt(List::size).thenComparing(Stand.WALK)))
                .toList();
    }

    /** How many combinations a unit may get, for each treatment of the units around it. */
    private static TreeSet<Integer> treatmentNumbers(Trial trial, List<Step> steps, Step step) {
        var outerFactors = trial.factors().stream()
                .filter(f -> steps.stream()
                        .filter(s -> trial.place().contains(s.level(), step.level()))
                        .anyMatch(s -> s.factors().contains(f)))
                .toList();
        return trial.treatments(outerFactors).stream()
                .map(outer -> step.treatments(trial, outer).size())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static List<String> faults(Trial trial, List<Step> steps, Step step) {
        var numbers = treatmentNumbers(trial, steps, step);
        String what = step.what();
        if (numbers.first() == 0) {
            return List.of("The combinations that are never made leave nothing for " + what + " in some units.");
        }
        if (step.within().size() > 2) {
            return List.of(what + " would have to be balanced over " + String.join(", ", step.within())
                    + " at once; two crossed levels are possible. Leave out 'across' or one of these levels.");
        }
        return step.crossed()
                ? crossedFaults(trial, steps, step, what, numbers)
                : simpleFault(step, what, numbers.last()).stream().toList();
    }

    private static Optional<String> simpleFault(Step step, String what, int combinations) {
        if (step.units() >= combinations) {
            return Optional.empty();
        }
        String unit = step.level();
        return Optional.of(step.holder() + " holds " + number(step.units(), unit) + ", but " + what + " makes "
                + combinations
                + " combinations, and a full set needs one " + unit + " for each. It fits with " + combinations + ", "
                + 2 * combinations + " or more there"
                + (step.units() > 1 ? ", or with at most " + step.units() + " combinations." : "."));
    }

    /** So many trays, or so many units of a level, whose name no one can put into the plural for the grower. */
    private static String number(int count, String unit) {
        return unit.equals(Place.TRAY) ? count + (count == 1 ? " tray" : " trays") : count + " × " + unit;
    }

    private static List<String> crossedFaults(
            Trial trial, List<Step> steps, Step step, String what, TreeSet<Integer> numbers) {
        String row = step.within().get(0);
        String column = step.within().get(1);
        if (numbers.size() > 1) {
            return List.of("Combinations that are never made leave " + what + " with different choices from " + row
                    + " to " + row + "; then it can't be balanced over " + column + " as well.");
        }
        var faults = new ArrayList<String>();
        steps.stream()
                .filter(s -> trial.place().contains(s.level(), step.level()))
                .flatMap(s -> gap(trial, steps, s, what, row + " and " + column).stream())
                .forEach(faults::add);
        int combinations = numbers.last();
        if (!Rectangle.exists(step.rows(), step.columns(), step.perCell(), combinations)) {
            faults.add(uneven(step, what, combinations));
        }
        return faults;
    }

    private static String uneven(Step step, String what, int combinations) {
        String row = step.within().get(0);
        String column = step.within().get(1);
        int multiple = combinations / gcd(combinations, step.perCell());
        return "Each " + row + " holds " + step.columns() * step.perCell() + " trays and each " + column + " "
                + step.rows() * step.perCell() + ", but " + what + " makes " + combinations
                + " combinations, and each must come equally often in every " + row + " and every " + column
                + ". It fits where the numbers of " + row + " and of " + column + " are both multiples of " + multiple
                + " ("
                + multiple + ", " + 2 * multiple + ", " + 3 * multiple + " ...); or leave out 'across', and " + column
                + " is not balanced.";
    }

    /** Why units of an outer step would stay empty, where they would. */
    private static Optional<String> gap(Trial trial, List<Step> steps, Step outer, String what, String over) {
        var numbers = treatmentNumbers(trial, steps, outer);
        int combinations = numbers.last();
        if (numbers.stream().allMatch(n -> outer.units() % n == 0) || outer.units() < combinations) {
            return Optional.empty();
        }
        int fewer = outer.units() / combinations * combinations;
        return Optional.of(outer.holder() + " holds " + number(outer.units(), outer.level()) + ", and " + outer.what()
                + " makes "
                + combinations + " combinations: some would stay empty, and then " + what + " can't be balanced over "
                + over + ". It fits with " + fewer + " or " + (fewer + combinations) + " × " + outer.level()
                + " there.");
    }

    private static List<String> neverAcross(Trial trial, List<Step> steps) {
        var reasons = new ArrayList<String>();
        for (Treatment never : trial.never()) {
            var levels = steps.stream()
                    .filter(s -> s.factors().stream().anyMatch(f -> never.level(f.name()) != null))
                    .map(Step::level)
                    .toList();
            boolean nested = levels.stream()
                    .allMatch(a -> levels.stream().allMatch(b -> a.equals(b) || nested(trial.place(), a, b)));
            if (!nested) {
                reasons.add("The combination " + never.describe() + " can't be kept out: it is applied to "
                        + String.join(" and ", levels) + ", which cross, so every combination comes about.");
            }
        }
        return reasons;
    }

    private static boolean nested(Place place, String a, String b) {
        return place.contains(a, b) || place.contains(b, a);
    }

    /** Fewer sets, and at last fewer of the outermost units, so that each treatment gets as many trays as asked for. */
    private static Fitting reduced(Trial trial, List<Step> full, int replicates) {
        var possible = new TreeSet<Integer>();
        var only = full.get(0);
        boolean searchable = full.size() == 1 && searchable(trial, only, replicates);
        if (searchable && only.searched()) {
            return new Fitting(trial, full);
        }
        int outermost = only.searched() ? 0 : trial.place().levels().get(0).count();
        for (int used = outermost; used >= 1; used--) {
            for (var steps : choices(full)) {
                var fitting = new Fitting(withOutermost(trial, used), steps);
                int trays = fitting.traysPerTreatment();
                if (trays == replicates) {
                    return fitting;
                }
                possible.add(trays);
            }
            if (!outermostIsBlock(trial)) {
                break;
            }
        }
        if (searchable) {
            return new Fitting(trial, List.of(only.withSets(0)));
        }
        if (only.searched()) {
            possible.add(trial.place().trays() / trial.treatments().size());
        }
        throw new DoesNotFitException(List.of("The plan asks for " + replicates
                + " replicates, that is trays for each treatment. In this place each treatment can have "
                + possible.stream().map(String::valueOf).collect(Collectors.joining(", ")) + "."));
    }

    /** Whether so many trays of each treatment find a place by search: some may stay empty, but none between rows and columns. */
    private static boolean searchable(Trial trial, Step step, int replicates) {
        int wanted = replicates * trial.treatments().size();
        int units = trial.place().units(step.level());
        return step.level().equals(Place.TRAY)
                && (step.crossed() ? wanted == units : wanted <= units)
                && SearchedStep.isPossible(trial, step);
    }

    private static boolean outermostIsBlock(Trial trial) {
        String outermost = trial.place().levels().get(0).name();
        return !trial.moves(outermost)
                && trial.factors().stream().allMatch(f -> trial.place().contains(outermost, f.appliedTo()))
                && trial.place().levels().stream()
                        .noneMatch(l -> l.across().filter(outermost::equals).isPresent());
    }

    /** Every choice of sets from the full number down to 1, the smallest units first to be cut. */
    private static List<List<Step>> choices(List<Step> full) {
        List<List<Step>> choices = List.of(List.of());
        for (Step step : full) {
            var longer = new ArrayList<List<Step>>();
            for (var start : choices) {
                int fewest = step.crossed() ? step.sets() : 1;
                IntStream.iterate(step.sets(), s -> s >= fewest, s -> s - 1).forEach(sets -> {
                    var more = new ArrayList<>(start);
                    more.add(step.withSets(sets));
                    longer.add(more);
                });
            }
            choices = longer;
        }
        return choices;
    }

    private static Trial withOutermost(Trial trial, int used) {
        var levels = new ArrayList<>(trial.place().levels());
        var outermost = levels.get(0);
        levels.set(0, new Place.Level(outermost.name(), used, outermost.across()));
        return trial.at(new Place(levels));
    }

    private int traysPerTreatment() {
        double trays = trial.place().trays();
        for (Step step : steps) {
            int combinations = treatmentNumbers(trial, steps, step).last();
            trays *= (double) step.sets() * combinations / step.units();
        }
        return (int) Math.round(trays / trial.treatments().size());
    }

    private static int gcd(int a, int b) {
        return b == 0 ? a : gcd(b, a % b);
    }
}
