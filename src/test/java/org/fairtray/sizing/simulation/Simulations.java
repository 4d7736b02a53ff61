package org.fairtray.sizing.simulation;

import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.files.TrialFiles;

/** Plans in a few words, laid out by chance and simulated. */
record Simulations(Structure structure, PowerSimulation simulation) {

    /** The texts are what stands between the brackets of the plan's keys. */
    static Simulations of(String factors, String place, int seeds, String expect) {
        var plan = "{format: 1, trial: A, factors: [" + factors + "], place: [" + place
                + "], counting: {days: [6], seeds_per_frame: " + seeds
                + "}, outcomes: [{name: through, kind: count, day: 6}], expect: {" + expect + "}}";
        var trial = TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        var structure = Structure.of(trial, layout.trays());
        return new Simulations(structure, PowerSimulation.of(structure, trial.expectations(), 1));
    }

    List<SimulatedPower> run(List<Term> terms, Collection<Judge> judges, Precision precision, int threads) {
        return simulation.run(terms, judges, precision, threads, (term, done) -> {}, () -> false);
    }
}
