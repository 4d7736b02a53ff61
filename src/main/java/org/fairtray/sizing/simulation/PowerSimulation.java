package org.fairtray.sizing.simulation;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import java.util.function.ObjIntConsumer;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.analysis.InParallel;
import org.fairtray.analysis.models.MixedModels;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.trial.Expectations;

/**
 * The power of the terms of a layout by simulated trials that go through the real analysis. For a factor, its last level
 * but the control has the control's rate and what is worthwhile on top, and all else does nothing; for an interaction only
 * the trays with the last levels of all its factors have it. Counts are beta-binomial around the inverse logit of the
 * logit of that rate and a normal effect of each place unit.
 *
 * <p>Trials are numbered, and a number always meets the same chance ({@link NumberedTrials}). They are simulated in rounds
 * of {@value #ROUND} of each term, and only between rounds is it asked whether intervals are narrow enough: so neither the
 * number of threads nor other terms change what comes out.
 */
public final class PowerSimulation {
    /** How many trials of each term are simulated between two looks at whether to go on. */
    static final int ROUND = 100;

    private final Structure structure;
    private final Expectations expected;
    private final long seed;
    private final MixedModels models;

    private PowerSimulation(Structure structure, Expectations expected, long seed) {
        this.structure = structure;
        this.expected = expected;
        this.seed = seed;
        this.models = MixedModels.of(structure);
    }

    /**
     * The simulation of a layout.
     *
     * @param structure its trays and what is asked of them
     * @param expected a control's rate and what is worthwhile; correlation and places count as 0 where it says nothing
     * @param seed of all chance
     * @throws IllegalArgumentException if the control's rate or what is worthwhile is not said
     */
    public static PowerSimulation of(Structure structure, Expectations expected, long seed) {
        if (expected.controlRate().isEmpty() || expected.worthwhile().isEmpty()) {
            throw new IllegalArgumentException(expected + ": expected a control's rate and a worthwhile difference");
        }
        return new PowerSimulation(structure, expected, seed);
    }

    /** A scenario and what was found so far, by judge. */
    private static final class Tally {
        private final Scenario scenario;
        private List<SimulatedPower> powers;

        Tally(Scenario scenario, List<Judge> judges) {
            this.scenario = scenario;
            this.powers = scenario.start(judges);
        }

        boolean isOpen(Precision precision) {
            return scenario.isTestable() && !powers.stream().allMatch(p -> p.isWithin(precision.halfWidth()));
        }

        /** Takes in what several workers found, by judge. */
        void add(List<int[]> found, int simulations) {
            powers = IntStream.range(0, powers.size())
                    .mapToObj(j -> powers.get(j)
                            .plus(found.stream().mapToInt(f -> f[j]).sum(), simulations))
                    .toList();
        }
    }

    /**
     * Simulates.
     *
     * @param terms of the layout's analysis
     * @param judges one or more; they see the same trials
     * @param precision when to stop
     * @param threads 1 or more; more than there are cores are no use
     * @param progress is told the name of a term and how many of its trials are done, after each round
     * @param stopped asked before each trial; once it says true, the rounds that were finished count
     * @return for each term every judge in the order of {@link Judge}. Where the thread is interrupted, what was found
     *     until then, and the thread stays interrupted
     */
    public List<SimulatedPower> run(
            List<Term> terms,
            Collection<Judge> judges,
            Precision precision,
            int threads,
            ObjIntConsumer<String> progress,
            BooleanSupplier stopped) {
        var wanted = List.copyOf(EnumSet.copyOf(judges));
        var tallies = terms.stream()
                .map(t -> new Tally(Scenario.of(structure, t, expected), wanted))
                .toList();
        var workers = workers(tallies, wanted, threads, stopped);
        var open = stillOpen(tallies, precision);
        for (int done = 0; done < precision.most() && !open.isEmpty(); open = stillOpen(open, precision)) {
            int to = Math.min(precision.most(), done + ROUND);
            if (!round(workers, open, done, to)) {
                break;
            }
            open.forEach(t -> progress.accept(t.scenario.term().name(), to));
            done = to;
        }
        return tallies.stream().flatMap(t -> t.powers.stream()).toList();
    }

    private static List<Tally> stillOpen(List<Tally> tallies, Precision precision) {
        return tallies.stream().filter(t -> t.isOpen(precision)).toList();
    }

    private List<Worker> workers(List<Tally> tallies, List<Judge> judges, int threads, BooleanSupplier stopped) {
        var scenarios = tallies.stream()
                .map(t -> t.scenario)
                .filter(Scenario::isTestable)
                .toList();
        var workers = new ArrayList<Worker>();
        for (int w = 0; w < threads; w++) {
            var looks = scenarios.stream().collect(Collectors.toMap(s -> s, s -> looks(s, judges)));
            workers.add(new Worker(new NumberedTrials(structure, expected, seed), looks, stopped));
        }
        return workers;
    }

    private List<Look> looks(Scenario scenario, List<Judge> judges) {
        return judges.stream()
                .map(j -> Look.of(j, structure, models, scenario.term()))
                .toList();
    }

    /** Simulates some numbers of each scenario; false where that was stopped, and nothing of it counts. */
    private static boolean round(List<Worker> workers, List<Tally> open, int from, int to) {
        int threads = workers.size();
        try {
            var found = InParallel.each(
                    IntStream.range(0, threads).boxed().toList(),
                    w -> open.stream()
                            .map(t -> workers.get(w).found(t.scenario, from + w, to, threads))
                            .toList());
            for (int t = 0; t < open.size(); t++) {
                int tally = t;
                open.get(t).add(found.stream().map(f -> f.get(tally)).toList(), to - from);
            }
            return true;
        } catch (CancellationException stopped) {
            return false;
        }
    }
}
