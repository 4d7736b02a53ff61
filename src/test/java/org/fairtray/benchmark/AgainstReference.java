package org.fairtray.benchmark;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.design.Structure;
import org.fairtray.files.TrialFolder;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.logistic.MixedLogisticFit;
import org.fairtray.trial.Tray;

/**
 * Times fits here and in base R and lme4, one after the other on the same data, and prints the medians as a table. Run from
 * the project's folder with Rscript and lme4 installed; see docs/benchmarks.md. Argument: seconds for each measurement.
 */
public final class AgainstReference {
    private static final int[] SIZES = {21, 24, 240, 2400, 24000};
    private static final long TOO_SHORT_NANOS = 20_000_000;

    private final PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    private final double seconds;
    private final Path folder;

    private AgainstReference(double seconds, Path folder) {
        this.seconds = seconds;
        this.folder = folder;
    }

    /** Runs all comparisons. */
    public static void main(String[] args) throws IOException, InterruptedException {
        var run = new AgainstReference(Double.parseDouble(args[0]), Files.createTempDirectory("reference"));
        run.out.println("| fit | here | reference | times as fast | log-likelihood here | reference |");
        run.out.println("|---|---|---|---|---|---|");
        run.plates();
        for (int trays : SIZES) {
            run.mixed(trays);
        }
        run.splitPlot();
    }

    private record Time(double microseconds, double logLikelihood) {}

    private void plates() throws IOException, InterruptedException {
        var data = MixedLogisticBenchmark.of(21);
        var here = time(
                () -> LogisticFit.of(data.model(), data.counts()),
                LogisticFit.of(data.model(), data.counts()).logLikelihood());
        print("binomial, 21 plates, 2 × 2 (`glm.fit`)", here, reference("glm.fit", data.csv()));
    }

    private void mixed(int trays) throws IOException, InterruptedException {
        var data = MixedLogisticBenchmark.of(trays);
        var here = time(
                data::fit,
                MixedLogisticFit.of(data.model(), data.counts(), data.groupings())
                        .logLikelihood());
        String what = trays == 21 ? "21 plates" : String.format(Locale.ROOT, "%,d trays", trays);
        print("mixed logistic, " + what + " (`glmer`)", here, reference("glmer", data.csv()));
    }

    private void splitPlot() throws IOException, InterruptedException {
        var files = new TrialFolder(Path.of("datasets", "yates-oats")).read();
        var trays = files.layout().orElseThrow().trays();
        var yields = files.readings().stream()
                .collect(Collectors.toMap(r -> r.tray(), r -> r.values().get("yield")));
        double[] values = trays.stream().mapToDouble(t -> yields.get(t.code())).toArray();
        var structure = Structure.of(files.trial(), trays);
        var known = time(() -> AnovaPart.of(structure, values).findings("raw"), Double.NaN);
        var whole = time(
                () -> AnovaPart.of(Structure.of(files.trial(), trays), values).findings("raw"), Double.NaN);
        var there = reference("aov", oats(trays, values));
        print("strata, 72 plots, split plot, the layout's strata known (`aov`)", known, there);
        print("the same with working out the strata from places and treatments (`aov`)", whole, there);
    }

    private static String oats(List<Tray> trays, double[] values) {
        var lines = new ArrayList<>(List.of("block,variety,nitro,yield"));
        for (int i = 0; i < values.length; i++) {
            var tray = trays.get(i);
            lines.add(tray.stand().at().get(0) + "," + tray.treatment().level("variety") + ","
                    + tray.treatment().level("nitro") + "," + values[i]);
        }
        return String.join("\n", lines) + "\n";
    }

    /** The median of many calls, each long enough for the clock, after as long a time to warm up. */
    private Time time(Supplier<?> call, double logLikelihood) {
        measure(call);
        return new Time(measure(call), logLikelihood);
    }

    private double measure(Supplier<?> call) {
        var times = new ArrayList<Double>();
        long started = System.nanoTime();
        int repeats = 1;
        while (times.size() < 5 || System.nanoTime() - started < seconds * 1e9) {
            long before = System.nanoTime();
            for (int i = 0; i < repeats; i++) {
                if (call.get() == null) {
                    throw new IllegalStateException("nothing was fitted");
                }
            }
            long taken = System.nanoTime() - before;
            if (taken < TOO_SHORT_NANOS) {
                repeats *= 2;
            } else {
                times.add(taken / 1e3 / repeats);
            }
        }
        double[] sorted = times.stream().mapToDouble(t -> t).sorted().toArray();
        return sorted[sorted.length / 2];
    }

    private Time reference(String what, String csv) throws IOException, InterruptedException {
        var file = Files.writeString(folder.resolve("data.csv"), csv);
        var process = new ProcessBuilder(
                        "Rscript",
                        "src/test/resources/benchmark/reference.R",
                        what,
                        file.toString(),
                        String.valueOf(seconds))
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        var said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).trim();
        if (process.waitFor() != 0) {
            throw new IOException("Rscript said: " + said);
        }
        double[] numbers = Arrays.stream(said.split(" "))
                .mapToDouble(s -> s.equals("NA") ? Double.NaN : Double.parseDouble(s))
                .toArray();
        return new Time(numbers[0], numbers[1]);
    }

    private void print(String what, Time here, Time reference) {
        out.printf(
                Locale.ROOT,
                "| %s | %s | %s | %.0f | %s | %s |%n",
                what,
                milliseconds(here),
                milliseconds(reference),
                reference.microseconds / here.microseconds,
                likelihood(here),
                likelihood(reference));
    }

    private static String milliseconds(Time time) {
        return String.format(Locale.ROOT, "%.3g ms", time.microseconds / 1e3);
    }

    private static String likelihood(Time time) {
        return Double.isNaN(time.logLikelihood) ? "" : String.format(Locale.ROOT, "%.5f", time.logLikelihood);
    }
}
