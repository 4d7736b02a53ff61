package org.fairtray.design;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * How a plan is randomised, worked out from its place and from what each factor is applied to: one {@link Step} for each
 * level that factors are applied to, from the largest units to the smallest. In each step the combinations of those
 * factors' levels are given to that level's units, equally often in every unit of every level outside it. Blocks, Latin
 * squares, split plots of any depth, strip plots and factorials in each are what this gives for the places that a
 * textbook draws them for. Where the plan has restrictions, of these layouts only those are drawn that keep them.
 *
 * <p>Source: Bailey (2008), Design of Comparative Experiments, sections 8.3, 9.1 and 10.14 (randomise by the
 * permutations that keep the structure of the place).
 */
public final class Randomisation {
    private final Trial trial;
    private final List<Step> steps;

    private Randomisation(Trial trial, List<Step> steps) {
        this.trial = trial;
        this.steps = List.copyOf(steps);
    }

    /**
     * The randomisation of a plan.
     *
     * @throws DoesNotFitException if the place can't hold full sets of the treatments, nor enough to search for a layout
     */
    public static Randomisation of(Trial trial) {
        var fitting = Fitting.of(trial);
        return new Randomisation(fitting.trial(), fitting.steps());
    }

    /** The steps, from the largest units to the smallest. */
    public List<Step> steps() {
        return steps;
    }

    /**
     * Draws a layout; every layout that the plan allows is equally likely. Where some step is searched for, every layout
     * that differs from the one found by a {@link Renaming} is.
     *
     * <p>Batches are drawn after the treatments, so a plan without them has the same layout.
     *
     * @param random the source of chance
     * @throws DoesNotFitException if a level has more batches than trays, or units, that get it
     */
    public Layout draw(UniformRandomProvider random) {
        return draw(random, share -> {}).layout();
    }

    /**
     * A layout, and how good it is where it had to be searched for.
     *
     * @param qualities one for each step that was searched for
     */
    public record Drawn(Layout layout, List<Quality> qualities) {}

    /**
     * Draws a layout as {@link #draw(UniformRandomProvider)} does.
     *
     * @param progress gets the share of a search that is done, from 0 to 1
     * @throws DoesNotFitException if a search finds no layout that tells all main effects apart
     */
    public Drawn draw(UniformRandomProvider random, Consumer<Double> progress) {
        var qualities = new ArrayList<Quality>();
        var first = trays(random, qualities, progress);
        var trays = trial.restrictions().isEmpty()
                ? ordered(first, random)
                : new RestrictedDraw(trial, steps, random)
                        .draw(() -> ordered(searches() ? first : trays(random, qualities, progress), random), progress);
        return new Drawn(new Layout(Batching.draw(trial, withCodes(trays), random)), qualities);
    }

    private boolean searches() {
        return steps.stream().anyMatch(Step::searched);
    }

    private List<Tray> ordered(List<Tray> trays, UniformRandomProvider random) {
        return searches() ? renamed(trays, random) : trays;
    }

    private List<Tray> trays(UniformRandomProvider random, List<Quality> qualities, Consumer<Double> progress) {
        Map<String, Map<List<Integer>, Treatment>> given = new LinkedHashMap<>();
        for (Step step : steps) {
            given.put(
                    step.level(),
                    step.searched() ? search(step, given, qualities, random, progress) : draw(step, given, random));
        }
        var trays = new ArrayList<Tray>();
        for (Stand stand : trial.place().stands()) {
            var treatment = treatment(stand, given);
            if (treatment.levels().size() == trial.factors().size()) {
                trays.add(new Tray("", stand, Map.of(), inPlanOrder(treatment)));
            }
        }
        return trays;
    }

    private Map<List<Integer>, Treatment> search(
            Step step,
            Map<String, Map<List<Integer>, Treatment>> given,
            List<Quality> qualities,
            UniformRandomProvider random,
            Consumer<Double> progress) {
        var units = new ArrayList<List<Integer>>();
        var around = new ArrayList<Treatment>();
        for (var unit : SearchedStep.used(trial, step)) {
            var outer = outer(step, unit, given);
            if (outer.levels().size() == factorsOutside(step)) {
                units.add(unit);
                around.add(outer);
            }
        }
        var searched = new SearchedStep(trial, step, units, around);
        var found = searched.search(random, progress);
        if (found.efficiency() == 0) {
            throw new DoesNotFitException(List.of("No layout was found in which the levels of " + step.what()
                    + " can be compared with each other. Leave out levels, or give the place more trays."));
        }
        qualities.add(searched.quality(found));
        var treatments = searched.treatments(found);
        var searchedFor = new HashMap<List<Integer>, Treatment>();
        for (int i = 0; i < treatments.size(); i++) {
            searchedFor.put(units.get(i), treatments.get(i));
        }
        return searchedFor;
    }

    private List<Tray> renamed(List<Tray> trays, UniformRandomProvider random) {
        var renaming = new Renaming(trial, random);
        return trays.stream()
                .map(t -> new Tray(t.code(), renaming.of(t.stand()), t.batches(), renaming.of(t.treatment())))
                .sorted(Comparator.comparing(t -> t.stand().at(), Stand.WALK))
                .toList();
    }

    /** Codes follow the walk along the rack, so they tell where a tray stands and nothing else. */
    private static List<Tray> withCodes(List<Tray> trays) {
        int digits = Math.max(2, Integer.toString(trays.size()).length());
        var coded = new ArrayList<Tray>();
        for (Tray tray : trays) {
            var number = Integer.toString(coded.size() + 1);
            var code = "T" + "0".repeat(digits - number.length()) + number;
            coded.add(new Tray(code, tray.stand(), tray.batches(), tray.treatment()));
        }
        return coded;
    }

    private Treatment inPlanOrder(Treatment treatment) {
        return treatment.only(trial.factorNames());
    }

    private Treatment treatment(Stand stand, Map<String, Map<List<Integer>, Treatment>> given) {
        var treatment = new Treatment(Map.of());
        for (var entry : given.entrySet()) {
            var part = entry.getValue().get(unit(entry.getKey(), stand));
            treatment = part == null ? treatment : treatment.with(part);
        }
        return treatment;
    }

    private List<Integer> unit(String level, Stand stand) {
        return Units.of(trial.place().key(level), stand.at());
    }

    private Map<List<Integer>, Treatment> draw(
            Step step, Map<String, Map<List<Integer>, Treatment>> given, UniformRandomProvider random) {
        var drawn = new HashMap<List<Integer>, Treatment>();
        for (var group : step.groups(trial.place())) {
            var outer = outer(step, group.get(0), given);
            if (outer.levels().size() == factorsOutside(step)) {
                var order = step.draw(step.treatments(trial, outer), random);
                for (int i = 0; i < group.size(); i++) {
                    if (order.get(i).isPresent()) {
                        drawn.put(group.get(i), order.get(i).get());
                    }
                }
            }
        }
        return drawn;
    }

    /** What a unit gets from the units it lies in. */
    private Treatment outer(Step step, List<Integer> unit, Map<String, Map<List<Integer>, Treatment>> given) {
        var place = trial.place();
        var treatment = new Treatment(Map.of());
        for (Step earlier : steps) {
            if (place.contains(earlier.level(), step.level())) {
                var key = Units.part(place.key(step.level()), place.key(earlier.level()), unit);
                var part = given.get(earlier.level()).get(key);
                treatment = part == null ? treatment : treatment.with(part);
            }
        }
        return treatment;
    }

    private int factorsOutside(Step step) {
        return steps.stream()
                .filter(s -> trial.place().contains(s.level(), step.level()))
                .mapToInt(s -> s.factors().size())
                .sum();
    }

    /** How the draw works, a sentence a step, for people. */
    public List<String> describe() {
        var sentences = new ArrayList<>(steps.stream().map(this::describe).toList());
        if (!trial.restrictions().isEmpty()) {
            sentences.add("Only layouts are drawn in which "
                    + trial.restrictions().stream().map(Restriction::words).collect(Collectors.joining("; ")) + ".");
        }
        trial.batches().forEach(b -> sentences.add(Batching.describe(trial, b)));
        return List.copyOf(sentences);
    }

    private String describe(Step step) {
        if (step.searched()) {
            return describeSearch(step);
        }
        var units = step.level().equals(Place.TRAY) ? "single trays" : "whole units of " + step.level();
        var within = step.within().isEmpty()
                ? "over all of them"
                : "equally often within each " + String.join(" and each ", step.within());
        return "The levels of " + step.what() + " are given at random to " + units + ", " + within + ".";
    }

    private static String describeSearch(Step step) {
        var units = step.level().equals(Place.TRAY) ? "single trays" : "whole units of " + step.level();
        return "The levels of " + step.what() + " are given to " + units
                + (step.within().isEmpty()
                        ? " by a searched plan, its places and names put in random order."
                        : " by a searched plan, as comparable within each "
                                + String.join(" and each ", step.within())
                                + " as was found; then places and names are put in random order.");
    }
}
