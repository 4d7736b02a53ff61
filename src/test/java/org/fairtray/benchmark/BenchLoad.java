package org.fairtray.benchmark;

import com.google.gson.Gson;
import java.nio.file.Files;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import org.fairtray.bench.BeetTrial;
import org.fairtray.bench.web.BenchServer;
import org.fairtray.bench.web.Caller;

/**
 * Twenty phones that each count twice a second for a minute, against one trial of 600 trays on this computer. Prints how
 * long answers took and how many counts readings.csv and the journal have in the end.
 */
public final class BenchLoad {
    private static final int PHONES = 20;
    private static final int COUNTS = 120;
    private static final Duration BETWEEN = Duration.ofMillis(500);
    private static final String PLAN = """
            format: 1
            trial: Load
            factors:
              - {name: cover, unit: kg, levels: [0, 3]}
            place:
              - {name: shelf, count: 20}
              - {name: stack, count: 5}
              - {name: spot, count: 6}
            counting: {days: [1, 2, 3, 4], frames_per_tray: 1, seeds_per_frame: 50}
            outcomes:
              - {name: germinated, kind: count, of: sown, day: 4}
            """;

    private BenchLoad() {}

    /** Needs no arguments. */
    public static void main(String[] args) throws Exception {
        var folder = Files.createTempDirectory("bench-load");
        var laid = BeetTrial.layOut(folder, PLAN);
        var trays = laid.layout().trays().stream().map(t -> t.code()).toList();
        var opening = new BenchServer.Opening(
                folder, 0, false, Clock.system(ZoneId.systemDefault()), c -> {}, Throwable::printStackTrace);
        try (var bench = BenchServer.open(opening)) {
            var phones = new ArrayList<Callable<List<Double>>>();
            for (int i = 0; i < PHONES; i++) {
                var caller = new Caller(bench.address());
                var entered = caller.enter(bench.code(), "phone " + i);
                if (entered.statusCode() == 429) {
                    Thread.sleep(12_500);
                    entered = caller.enter(bench.code(), "phone " + i);
                }
                int phone = i;
                phones.add(() -> count(caller, folder.getFileName().toString(), trays, phone));
            }
            var pool = Executors.newFixedThreadPool(PHONES);
            var all = new ArrayList<Double>();
            for (var times : pool.invokeAll(phones)) {
                all.addAll(times.get());
            }
            pool.shutdown();
            report(all);
        }
        var kept = Files.readAllLines(folder.resolve("readings.csv")).size() - 1;
        var journal = Files.readAllLines(folder.resolve("readings.journal")).size() - 1;
        System.out.printf("sent %d, in the journal %d, in readings.csv %d%n", PHONES * COUNTS, journal, kept);
    }

    /** Each phone counts trays of its own, one day after the other. */
    private static List<Double> count(Caller caller, String id, List<String> trays, int phone) throws Exception {
        var times = new ArrayList<Double>();
        int own = trays.size() / PHONES;
        long start = System.nanoTime() + phone * BETWEEN.toNanos() / PHONES;
        for (int i = 0; i < COUNTS; i++) {
            long due = start + i * BETWEEN.toNanos();
            Thread.sleep(Math.max(0, (due - System.nanoTime()) / 1_000_000));
            var count = Map.of(
                    "id",
                    "load-" + phone + "-" + i,
                    "tray",
                    trays.get(phone * own + i % own),
                    "day",
                    1 + i / own,
                    "frame",
                    1,
                    "seen",
                    0,
                    "values",
                    Map.of("germinated", String.valueOf(10 * (1 + i / own))));
            long sent = System.nanoTime();
            var answer =
                    caller.post("/api/trials/" + id + "/counts", new Gson().toJson(Map.of("counts", List.of(count))));
            times.add((System.nanoTime() - sent) / 1e6);
            if (!answer.body().contains("\"status\":\"kept\"")) {
                throw new IllegalStateException(answer.statusCode() + " " + answer.body());
            }
        }
        return times;
    }

    private static void report(List<Double> times) {
        double[] sorted =
                times.stream().mapToDouble(Double::doubleValue).sorted().toArray();
        System.out.printf(
                "%d counts: median %.1f ms, 99th percentile %.1f ms, longest %.1f ms%n",
                sorted.length,
                quantile(sorted, 0.5),
                quantile(sorted, 0.99),
                Arrays.stream(sorted).max().orElseThrow());
    }

    private static double quantile(double[] sorted, double share) {
        return sorted[(int) Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)];
    }
}
