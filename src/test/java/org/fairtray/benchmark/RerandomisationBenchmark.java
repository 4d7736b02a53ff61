package org.fairtray.benchmark;

import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.fairtray.Trials;
import org.fairtray.analysis.Rerandomisations;
import org.fairtray.design.Structure;
import org.fairtray.findings.Rerandomised;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/**
 * 9,999 re-randomisations of each term in a virtual machine that has just started: single shots in new machines, the first
 * with nothing compiled yet. See docs/benchmarks.md.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Measurement(iterations = 1)
@Fork(5)
public class RerandomisationBenchmark {

    /** One factor on 24 trays in 4 blocks, two with their interaction, or a square of 5 by 5. */
    @Param({"one factor", "two factors", "square"})
    public String plan;

    private Structure structure;
    private double[] values;

    @Setup
    public void draw() {
        var trials = trials().drawn(1);
        structure = Structure.of(trials.trial(), trials.layout().trays());
        values = new Random(1).doubles(structure.trays().size()).toArray();
    }

    private Trials trials() {
        var soak = Trials.factor("soak", "tray", "0", "4", "8");
        var mat = Trials.factor("mat", "tray", "hemp", "coir");
        var mats = Trials.factor("mat", "tray", "hemp", "coir", "pad", "felt", "none");
        var blocks = Trials.place("block 4", "spot 6");
        return switch (plan) {
            case "one factor" -> Trials.of(blocks, List.of(soak), Trials.HEIGHT);
            case "two factors" -> Trials.of(blocks, List.of(soak, mat), Trials.HEIGHT);
            default -> Trials.of(Trials.place("row 5", "column 5 across row"), List.of(mats), Trials.HEIGHT);
        };
    }

    @Benchmark
    public List<Rerandomised> rerandomise() {
        return Rerandomisations.of(structure, values, 1);
    }
}
