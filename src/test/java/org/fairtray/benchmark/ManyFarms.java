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
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.logistic.MixedLogisticFit;

/**
 * One mixed logistic model for the counts of many farms, here and by lme4's glmer on the same invented data: 24 trays a farm,
 * two levels, 100 seeds a tray; farms, farms by levels and trays at random. Each fit has a process of its own, one after the
 * other, so that its memory can be told. Run from the project's folder with Rscript and lme4 installed; see
 * docs/benchmarks.md. Arguments: the numbers of trays.
 */
public final class ManyFarms {
    private static final int TRAYS_A_FARM = 24;
    private static final int SEEDS = 100;
    private static final double CONTROL = 0.8;
    private static final double CHANGE = 0.3;
    private static final double[] DEVIATIONS = {0.5, 0.3, 0.35};
    private static final long LIMIT_MINUTES = 15;
    private static final List<String> NAMES = List.of(
            "first, s",
            "again, s",
            "memory, MiB",
            "log-likelihood",
            "b0",
            "b1",
            "se b0",
            "se b1",
            "farm",
            "level",
            "tray");

    private final ModelMatrix model;
    private final List<Count> counts = new ArrayList<>();
    private final List<Grouping> groupings;

    /** Invents trays from a seed. */
    private ManyFarms(int trays) {
        var random = new Random(trays);
        var ones = new double[trays];
        var level = new double[trays];
        Arrays.fill(ones, 1);
        double ofFarm = 0;
        var ofLevel = new double[2];
        for (int i = 0; i < trays; i++) {
            if (i % TRAYS_A_FARM == 0) {
                ofFarm = DEVIATIONS[0] * random.nextGaussian();
                ofLevel[0] = DEVIATIONS[1] * random.nextGaussian();
                ofLevel[1] = DEVIATIONS[1] * random.nextGaussian();
            }
            level[i] = i % 2;
            double odds = CONTROL + CHANGE * level[i] + ofFarm + ofLevel[i % 2] + DEVIATIONS[2] * random.nextGaussian();
            int came = 0;
            for (int seed = 0; seed < SEEDS; seed++) {
                came += random.nextDouble() < LogisticFit.rate(odds) ? 1 : 0;
            }
            counts.add(new Count(came, SEEDS));
        }
        model = ModelMatrix.of(
                List.of(new ModelMatrix.Column("control", ones), new ModelMatrix.Column("level", level)));
        groupings = List.of(
                Grouping.by(numbers(trays).map(i -> i / TRAYS_A_FARM).boxed().toList()),
                Grouping.by(numbers(trays)
                        .map(i -> 2 * (i / TRAYS_A_FARM) + i % 2)
                        .boxed()
                        .toList()),
                Grouping.by(numbers(trays).boxed().toList()));
    }

    private static IntStream numbers(int trays) {
        return IntStream.range(0, trays);
    }

    /** Compares the two, or in a process of its own ("here" and a number of trays) fits and prints numbers. */
    public static void main(String[] args) throws IOException, InterruptedException {
        var out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
        if (args[0].equals("here")) {
            out.println(new ManyFarms(Integer.parseInt(args[1])).fitted());
            return;
        }
        out.println("| trays | by | " + String.join(" | ", NAMES) + " |");
        for (String trays : args) {
            print(out, trays, "here", run(here(trays)));
            var table = Files.createTempFile("many-farms", ".csv");
            Files.writeString(table, new ManyFarms(Integer.parseInt(trays)).csv());
            print(
                    out,
                    trays,
                    "glmer",
                    run(List.of("Rscript", "src/test/resources/benchmark/many-farms.R", table.toString())));
            Files.delete(table);
        }
    }

    private static List<String> here(String trays) {
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                ManyFarms.class.getName(),
                "here",
                trays);
    }

    /** What a process printed; where it took too long it is ended and nothing comes back. */
    private static double[] run(List<String> command) throws IOException, InterruptedException {
        var said = Files.createTempFile("many-farms", ".txt");
        var process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .redirectOutput(said.toFile())
                .start();
        if (!process.waitFor(LIMIT_MINUTES, TimeUnit.MINUTES)) {
            process.descendants().forEach(ProcessHandle::destroy);
            process.destroy();
            return new double[0];
        }
        return Arrays.stream(Files.readString(said).trim().split("\\s+", -1))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }

    private static void print(PrintWriter out, String trays, String by, double[] numbers) {
        var cells = Arrays.stream(numbers)
                .mapToObj(number -> String.format(Locale.ROOT, "%.10g", number))
                .toList();
        var none = List.of("not within " + LIMIT_MINUTES + " minutes");
        out.println("| " + trays + " | " + by + " | " + String.join(" | ", cells.isEmpty() ? none : cells) + " |");
    }

    /** The numbers that {@link #NAMES} names. */
    private String fitted() throws IOException {
        var numbers = new ArrayList<Double>();
        var fit = timed(numbers);
        if (!fit.settled()) {
            throw new IllegalStateException("the fit of " + counts.size() + " trays didn't settle");
        }
        // before the second fit, which would add to it
        double memory = mostMemory();
        timed(numbers);
        numbers.add(memory);
        numbers.add(fit.logLikelihood());
        for (int j = 0; j < 2; j++) {
            numbers.add(fit.estimates().coefficient(j));
        }
        for (int j = 0; j < 2; j++) {
            numbers.add(fit.estimates().standardError(j));
        }
        for (double deviation : fit.standardDeviations()) {
            numbers.add(deviation);
        }
        return String.join(" ", numbers.stream().map(String::valueOf).toList());
    }

    private MixedLogisticFit timed(List<Double> seconds) {
        long before = System.nanoTime();
        var fit = MixedLogisticFit.of(model, counts, groupings);
        seconds.add((System.nanoTime() - before) / 1e9);
        return fit;
    }

    /** The most memory that this process ever held, MiB, as Linux has it. */
    private static double mostMemory() throws IOException {
        return Files.readAllLines(Path.of("/proc/self/status")).stream()
                .filter(line -> line.startsWith("VmHWM:"))
                .mapToDouble(line -> Double.parseDouble(line.replaceAll("\\D", "")) / 1024)
                .findFirst()
                .orElse(Double.NaN);
    }

    private String csv() {
        var lines = new ArrayList<>(List.of("y,n,level,farm,farmlevel,tray"));
        var of = groupings.stream().map(Grouping::of).toList();
        for (int i = 0; i < counts.size(); i++) {
            lines.add(counts.get(i).successes() + "," + SEEDS + "," + model.row(i)[1] + "," + of.get(0)[i] + ","
                    + of.get(1)[i] + "," + of.get(2)[i]);
        }
        return String.join("\n", lines) + "\n";
    }
}
