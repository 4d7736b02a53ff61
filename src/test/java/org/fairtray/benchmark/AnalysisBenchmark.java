package org.fairtray.benchmark;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.findings.Findings;
import org.fairtray.report.Report;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * Reading, analysing and reporting whole trials in a warm virtual machine. Run from the project's folder; see
 * docs/benchmarks.md.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class AnalysisBenchmark {

    /** A folder of datasets/: 21 plates of counts, 64 dishes of counts, 72 plots of a split plot. */
    @Param({"crowder-seeds", "mead-germination", "yates-oats"})
    public String data;

    private TrialFolder folder;
    private TrialFiles files;
    private Findings findings;

    @Setup
    public void read() {
        folder = new TrialFolder(Path.of("datasets", data));
        files = folder.read();
        findings = analyse();
    }

    @Benchmark
    public TrialFiles readFolder() {
        return folder.read();
    }

    @Benchmark
    public Findings analyse() {
        var sealing = new Sealing(files.sealState(), files.seal(), files.planSha256(), null);
        return Analysis.of(files.trial(), files.layout().orElseThrow(), files.readings(), sealing, "benchmark");
    }

    @Benchmark
    public String report() {
        return Report.of(files.trial(), files.layout().orElseThrow(), findings).html();
    }
}
