package org.fairtray.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Place;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * Draws a layout that keeps the plan's restrictions: layouts are drawn as without them until one keeps all, and so each
 * that does is equally likely. Where none does in many draws, a {@link Walk} goes on from the last.
 *
 * <p>Sources (from memory): Youden (1972), Randomization and experimentation, Technometrics 14, 13-22; Grundy and Healy
 * (1950), Restricted randomization and quasi-Latin squares, Journal of the Royal Statistical Society B 12, 286-291.
 */
final class RestrictedDraw {
    /** So many layouts are drawn before a walk begins, but fewer of large ones. */
    static final int MOST_DRAWS = 200;

    private static final int FEWEST_DRAWS = 20;
    private static final int TRAYS_DRAWN = 20_000;
    private static final long MOST_VISITS = 200_000;

    private final Trial trial;
    private final List<Step> steps;
    private final UniformRandomProvider random;

    /**
     * @param trial with at least one restriction
     * @param steps of its randomisation
     */
    RestrictedDraw(Trial trial, List<Step> steps, UniformRandomProvider random) {
        this.trial = trial;
        this.steps = steps;
        this.random = random;
    }

    /**
     * A layout that keeps the restrictions.
     *
     * @param plain draws one as without them
     * @param progress gets the share of the longest search there can be that is done
     * @throws DoesNotFitException if none can keep them, or none is found
     */
    List<Tray> draw(Supplier<List<Tray>> plain, Consumer<Double> progress) {
        return draw(plain, MOST_DRAWS, progress);
    }

    /** The same with another number of draws before a walk. */
    List<Tray> draw(Supplier<List<Tray>> plain, int mostDraws, Consumer<Double> progress) {
        var trays = plain.get();
        refuseImpossible(trays);
        int most = Math.min(mostDraws, Math.max(FEWEST_DRAWS, TRAYS_DRAWN / trays.size()));
        for (int draws = 1; draws < most && bench(trays).breaches() > 0; draws++) {
            trays = plain.get();
        }
        return bench(trays).breaches() == 0 ? trays : walked(trays, progress);
    }

    private Bench bench(List<Tray> trays) {
        return new Bench(trial, trays, trial.restrictions());
    }

    /** So many of a group's units get one thing that they can't all lie apart. */
    private void refuseImpossible(List<Tray> trays) {
        for (var restriction : trial.restrictions()) {
            var level = Bench.level(trial, restriction);
            if (restriction.kind() == Restriction.Kind.APART && isSameEverywhere()) {
                steps.stream()
                        .filter(s -> s.level().equals(level))
                        .forEach(s -> refuseImpossible(restriction, s, trays));
            }
        }
    }

    /** Whether each draw gives a group the same treatments, in another order: full sets, whatever is around. */
    private boolean isSameEverywhere() {
        return steps.stream().noneMatch(Step::searched) && (trial.never().isEmpty() || steps.size() == 1);
    }

    private void refuseImpossible(Restriction restriction, Step step, List<Tray> trays) {
        var bench = bench(trays);
        var units = new RestrictedUnits(trial.place(), step.level());
        var stands = Layer.standsByUnit(trial, step.level(), bench);
        for (var group : step.groups(trial.place())) {
            int[] all = group.stream().mapToInt(u -> stands.get(u)[0]).toArray();
            int most = units.mostApart(all);
            var counts = new HashMap<String, Integer>();
            var names = restriction.of().equals(Restriction.TREATMENT)
                            && !trial.factorNames().contains(Restriction.TREATMENT)
                    ? trial.factorNames()
                    : List.of(restriction.of());
            var known = trays.stream()
                    .collect(Collectors.toMap(t -> bench.number(t.stand().at()), t -> t));
            IntStream.of(all)
                    .mapToObj(known::get)
                    .filter(t -> t != null)
                    .forEach(t -> counts.merge(t.treatment().only(names).describe(), 1, Integer::sum));
            counts.forEach((what, number) -> {
                if (number > most) {
                    throw new DoesNotFitException(List.of("The restriction {" + restriction.text() + "} can't be kept: "
                            + what + " goes to " + number + " of "
                            + (step.level().equals(Place.TRAY)
                                    ? "the " + all.length + " trays"
                                    : all.length + " × " + step.level())
                            + (step.within().isEmpty()
                                    ? ""
                                    : " of each " + step.within().get(0))
                            + ", and at most " + most + " can lie apart there. Leave the restriction out, or give "
                            + String.join(" × ", names) + " more levels."));
                }
            });
        }
    }

    private List<Tray> walked(List<Tray> trays, Consumer<Double> progress) {
        var bench = bench(trays);
        boolean searched = steps.stream().anyMatch(Step::searched);
        if (!searched && steps.size() > 1 && !trial.never().isEmpty()) {
            throw notFound(
                    bench,
                    "Beside combinations that are never made, restrictions are only tried on layouts as they"
                            + " are drawn.");
        }
        var layers = searched ? Layer.ofPlace(trial, bench) : Layer.of(trial, steps, bench);
        var walk = new Walk(bench, layers, random);
        long vain = walk.settle(progress::accept);
        if (vain > 0) {
            throw notFound(bench, String.format(java.util.Locale.ROOT, "%,d exchanges were tried.", vain));
        }
        walk.onward(Math.min(MOST_VISITS, 50L * walk.size() * walk.size()));
        return searched ? bench.trays() : renamed(bench.trays());
    }

    /** Levels exchange names at random, as restrictions and full sets allow; so what is like but for names is as likely. */
    private List<Tray> renamed(List<Tray> trays) {
        var renaming = new Renaming(trial, random);
        return trays.stream()
                .map(t -> new Tray(t.code(), t.stand(), t.batches(), renaming.of(t.treatment())))
                .toList();
    }

    private DoesNotFitException notFound(Bench bench, String tried) {
        var reasons = new ArrayList<String>();
        boolean several = trial.restrictions().size() > 1;
        reasons.add("No layout was found that keeps "
                + trial.restrictions().stream().map(r -> "{" + r.text() + "}").collect(Collectors.joining(", "))
                + ". " + tried);
        trial.restrictions()
                .forEach(r -> bench.amiss(r)
                        .ifPresent(a -> reasons.add("In the last one tried, against {" + r.text() + "}, " + a + ".")));
        reasons.add(
                several
                        ? "Leave out a restriction, or change how many levels or places there are."
                        : "Leave the restriction out, or change how many levels or places there are.");
        return new DoesNotFitException(reasons);
    }
}
