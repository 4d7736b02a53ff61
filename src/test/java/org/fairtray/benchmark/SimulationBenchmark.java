package org.fairtray.benchmark;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Structure;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.simulation.Judge;
import org.fairtray.sizing.simulation.PowerSimulation;
import org.fairtray.sizing.simulation.Precision;

/**
 * Times the power of a 2 × 2 × 3 split plot of 24 trays by simulation, every term of its analysis by each judge on two
 * threads in a virtual machine that has just started, and the same likelihood ratios by lme4's glmer; prints a table. Run
 * from the project's folder with Rscript and lme4 installed; see docs/benchmarks.md. Arguments: how many trials of each term
 * are simulated here, and how many there.
 */
public final class SimulationBenchmark {
    private static final String PLAN = "{format: 1, trial: Split plot, factors: [{name: soak, levels: [0, 8]},"
            + " {name: mat, levels: [a, b, c]}, {name: cover, levels: [0, 3], applied_to: stack}],"
            + " place: [{name: stack, count: 4}, {name: spot, count: 6}], counting: {days: [6], seeds_per_frame: 100},"
            + " outcomes: [{name: through, kind: count, day: 6}], expect: {control_rate: 0.4, worthwhile: 0.2,"
            + " tray_correlation: 0.03, place_sd: {stack: 0.2}}}";

    private static final int THREADS = 2;

    private final PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    private final OperatingSystemMXBean system = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
    private final Structure structure;

    private SimulationBenchmark(Structure structure) {
        this.structure = structure;
    }

    /** Runs here, then there. */
    public static void main(String[] args) throws IOException, InterruptedException {
        var trial = TrialFiles.of(Map.of("plan.yaml", PLAN.getBytes(StandardCharsets.UTF_8)))
                .trial();
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        new SimulationBenchmark(Structure.of(trial, layout.trays()))
                .run(Integer.parseInt(args[0]), Integer.parseInt(args[1]));
    }

    private void run(int here, int there) throws IOException, InterruptedException {
        out.println("| by | trials of each of " + structure.terms().size()
                + " terms | elapsed, s | processor, s | processor, ms a test |");
        out.println("|---|---|---|---|---|");
        simulate(Judge.LOGISTIC, here);
        simulate(Judge.ANOVA, here);
        simulate(Judge.VERDICT, here / 20);
        var process = new ProcessBuilder("Rscript", "src/test/resources/benchmark/power.R", String.valueOf(there))
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        var said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).trim();
        if (process.waitFor() != 0) {
            throw new IOException("Rscript said: " + said);
        }
        var times = said.split(" ", -1);
        print("`glmer`, one process", there, Double.parseDouble(times[0]), Double.parseDouble(times[1]));
    }

    private void simulate(Judge judge, int trials) {
        var simulation = PowerSimulation.of(structure, structure.trial().expectations(), 1);
        long started = System.nanoTime();
        long used = system.getProcessCpuTime();
        var found = simulation.run(
                structure.terms(), List.of(judge), new Precision(trials, 0), THREADS, (t, done) -> {}, () -> false);
        double elapsed = (System.nanoTime() - started) / 1e9;
        double processor = (system.getProcessCpuTime() - used) / 1e9;
        if (found.stream().anyMatch(p -> p.simulations() != trials)) {
            throw new IllegalStateException("not all were simulated: " + found);
        }
        print(judge.label() + ", two threads", trials, elapsed, processor);
    }

    private void print(String by, int trials, double elapsed, double processor) {
        out.printf(
                Locale.ROOT,
                "| %s | %,d | %.3g | %.3g | %.3g |%n",
                by,
                trials,
                elapsed,
                processor,
                1e3 * processor / trials / structure.terms().size());
    }
}
