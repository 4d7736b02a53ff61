package org.fairtray.benchmark;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.function.DoubleSupplier;
import java.util.stream.IntStream;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.command.Fairtray;
import org.fairtray.design.Generator;
import org.fairtray.files.TrialFiles;
import org.fairtray.jobs.Analysed;
import org.fairtray.packs.PackFile;
import org.fairtray.pooling.contribution.Shared;

/**
 * How a network's archive grows: invents packs of 24 trays, then adds, searches and pools them by the program's own commands,
 * each in a process of its own with the same small heap, whatever the number of packs. Arguments: a folder, then numbers of
 * packs, the smaller first; see docs/scale.md.
 */
public final class ManyPacks {
    private static final String HEAP = System.getProperty("heap", "256m");
    private static final long LIMIT_MINUTES = 30;
    private static final int TRIALS_A_FARM = 4;
    private static final List<String> CROPS = List.of("radish", "cress", "pea", "sunflower", "red cabbage");
    private static final String PLAN = """
            format: 1
            trial: Soak by mat, number NUMBER (invented)
            question: Do soaking and the mat change how many come through?
            crop: {name: CROP}
            conditions: {temperature: "WARMTH", water: WATER}
            factors:
              - {name: soak, unit: h, levels: [0, 8]}
              - {name: mat, levels: [hemp, coir, jute]}
            place:
              - {name: shelf, count: 4}
              - {name: spot, count: 6}
            counting: {days: [5], frames_per_tray: 2, seeds_per_frame: 50, counts: cumulative}
            outcomes:
              - {name: through, kind: count, of: sown, day: 5}
            expect: {worthwhile: 0.1}
            """;

    private final Path folder;
    private final PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    private final Map<String, byte[]> rendered;
    private final List<Path> written = new ArrayList<>();

    private ManyPacks(Path folder) {
        this.folder = folder;
        var first = Analysed.of(
                TrialFiles.of(trial(0)),
                photo -> {
                    throw new IllegalStateException("an invented trial with photos");
                },
                "",
                AnalysisOptions.USUAL);
        this.rendered = Map.of("results.json", utf8(first.json()), "report.html", utf8(first.html()));
    }

    /** Measures, or in a process of its own ("child" and a command) runs the command and prints what it took. */
    public static void main(String[] args) throws IOException, InterruptedException {
        if (args[0].equals("child")) {
            child(List.of(args).subList(1, args.length));
            return;
        }
        var many = new ManyPacks(Path.of(args[0]));
        many.out.println("| packs | what | seconds | processor, s | memory, MiB | wrote, MiB |");
        int before = 0;
        for (var number : List.of(args).subList(1, args.length)) {
            many.write(before, Integer.parseInt(number));
            before = Integer.parseInt(number);
            many.measure(before);
        }
    }

    private void measure(int packs) throws IOException, InterruptedException {
        var archive = folder.resolve("archive-" + packs + ".db");
        Files.deleteIfExists(archive);
        var db = archive.toString();
        var add = new ArrayList<>(List.of("archive", "add", db));
        written.forEach(each -> add.add(each.toString()));
        run(packs, "archive add", add, archive);
        run(packs, "archive add, all there", add, archive);
        run(packs, "archive list", List.of("archive", "list", db, "--json"));
        run(packs, "archive list --crop", List.of("archive", "list", db, "--json", "--crop", "cabbage"));
        run(packs, "archive list --factor", List.of("archive", "list", db, "--json", "--factor", "soak"));
        run(packs, "archive list --medium", List.of("archive", "list", db, "--json", "--medium", "rain"));
        run(packs, "archive list, one title", List.of("archive", "list", db, "--json", "--word", "number 00042"));
        run(packs, "pool", List.of("pool", "--json", "--no-report", "--most-trays", "0", db));
    }

    private void run(int packs, String what, List<String> command) throws IOException, InterruptedException {
        run(packs, what, command, folder.resolve("said.txt"));
    }

    private void run(int packs, String what, List<String> command, Path written)
            throws IOException, InterruptedException {
        var all = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx" + HEAP,
                "-cp",
                System.getProperty("java.class.path"),
                ManyPacks.class.getName(),
                "child",
                folder.resolve("said.txt").toString()));
        all.addAll(command);
        var numbers = folder.resolve("numbers.txt");
        long before = System.nanoTime();
        var process = new ProcessBuilder(all)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .redirectOutput(numbers.toFile())
                .start();
        if (!process.waitFor(LIMIT_MINUTES, TimeUnit.MINUTES)) {
            process.destroy();
            out.println("| " + packs + " | " + what + " | not within " + LIMIT_MINUTES + " minutes |");
            return;
        }
        double seconds = (System.nanoTime() - before) / 1e9;
        out.println(String.format(
                Locale.ROOT,
                "| %d | %s | %.2f | %s | %.2f |",
                packs,
                what,
                seconds,
                Files.readString(numbers).strip(),
                Files.size(written) / 1048576.0));
    }

    /** Runs a command as the program does; prints its processor time and the most memory that it held, as Linux has it. */
    private static void child(List<String> args) throws IOException {
        try (var said = new PrintWriter(args.get(0), StandardCharsets.UTF_8)) {
            var err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
            int status = Fairtray.run(said, err, args.subList(1, args.size()).toArray(String[]::new));
            if (status != 0) {
                throw new IllegalStateException("status " + status);
            }
        }
        double memory = Files.readAllLines(Path.of("/proc/self/status")).stream()
                .filter(line -> line.startsWith("VmHWM:"))
                .mapToDouble(line -> Double.parseDouble(line.replaceAll("\\D", "")) / 1024)
                .findFirst()
                .orElse(Double.NaN);
        var took = ProcessHandle.current().info().totalCpuDuration().orElse(Duration.ZERO);
        new PrintWriter(System.out, true, StandardCharsets.UTF_8)
                .println(String.format(Locale.ROOT, "%.2f | %.0f", took.toMillis() / 1e3, memory));
    }

    /** Each size has a folder for the packs that those before it don't have. */
    private void write(int from, int to) throws IOException {
        var packs = folder.resolve("packs-to-" + to);
        written.add(packs);
        Files.createDirectories(packs);
        IntStream.range(from, to)
                .parallel()
                .forEach(number -> write(number, packs.resolve(String.format(Locale.ROOT, "%05d.zip", number))));
    }

    private void write(int number, Path file) {
        if (Files.exists(file)) {
            return;
        }
        var files = new TreeMap<>(trial(number));
        files.putAll(rendered);
        var farm = Optional.of("farm-" + number / TRIALS_A_FARM);
        var zip = PackFile.bytes(new PackFile.About("0.1.0", farm, Optional.empty(), List.of("who counted")), files);
        try {
            Files.write(file, zip);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The trial of this number: farms have several each, and differ in what soaking and mats do there. */
    private static Map<String, byte[]> trial(int number) {
        var farm = Generator.of(1 + number / TRIALS_A_FARM);
        var effects = new HashMap<String, Double>();
        effects.put("soak=8", 0.4 + spread(farm::nextDouble));
        effects.put("mat=coir", 0.2 + spread(farm::nextDouble));
        effects.put("mat=jute", spread(farm::nextDouble));
        double base = 0.8 + spread(farm::nextDouble);
        var plan = PLAN.replace("NUMBER", String.format(Locale.ROOT, "%05d", number))
                .replace("CROP", CROPS.get(number % CROPS.size()))
                .replace("WARMTH", String.valueOf(18 + 2 * (number / TRIALS_A_FARM % 4)))
                .replace("WATER", number / TRIALS_A_FARM % 3 == 0 ? "rain" : "tap");
        return Shared.bytes(plan, number + 1L, effects, base);
    }

    private static double spread(DoubleSupplier chance) {
        return chance.getAsDouble() + chance.getAsDouble() - 1;
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
