package org.fairtray.benchmark;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.stream.Stream;
import org.fairtray.bench.planning.Advice;

/**
 * How long the bench takes to say what can be said of a plan while it is written: for each ready plan, and for larger ones.
 * Each is asked once in a virtual machine that has just started, then often in the warm one.
 */
public final class PlanAdvice {
    private static final int TIMES = 9;

    private PlanAdvice() {}

    /** Needs no arguments, and the folder designs. */
    public static void main(String[] args) throws IOException {
        var plans = new LinkedHashMap<String, String>();
        try (Stream<Path> files = Files.list(Path.of("designs"))) {
            for (var file : files.sorted().toList()) {
                plans.put(file.getFileName().toString(), Files.readString(file));
            }
        }
        var plain = plans.get("plain.yaml");
        var crossed = plans.get("four-mats-by-height.yaml");
        var split = plans.get("weight-by-soak.yaml");
        plans.put("600 trays, 3 blocks", plain.replace("spot, count: 4", "spot, count: 200"));
        plans.put("600 trays, split plot", split.replace("layer, count: 6", "layer, count: 75"));
        plans.put(
                "600 trays, searched",
                crossed.replace("stack, count: 4", "stack, count: 30")
                        .replace("height, count: 4", "height, count: 20"));
        plans.put("12 kept apart", plain + "restrictions: [{keep_apart: soak}, {even_at_edges: soak}]\n");
        plans.put(
                "600 kept apart",
                plain.replace("spot, count: 4", "spot, count: 200") + "restrictions: [{keep_apart: soak}]\n");
        plans.put("900,000 trays", plain.replace("spot, count: 4", "spot, count: 300000"));
        plans.forEach((name, text) -> report(name, text, 1, "first"));
        plans.forEach((name, text) -> report(name, text, TIMES, "warm"));
    }

    private static void report(String name, String text, int times, String when) {
        var threads = ManagementFactory.getThreadMXBean();
        double[] took = new double[times];
        double[] worked = new double[times];
        Advice advice = null;
        for (int i = 0; i < times; i++) {
            long start = System.nanoTime();
            long before = threads.getCurrentThreadCpuTime();
            advice = Advice.of(text);
            worked[i] = (threads.getCurrentThreadCpuTime() - before) / 1e6;
            took[i] = (System.nanoTime() - start) / 1e6;
        }
        Arrays.sort(took);
        Arrays.sort(worked);
        System.out.printf(
                "%s: %s: %.0f ms (%.0f to %.0f), processor %.0f ms, %s%n",
                when,
                name,
                took[times / 2],
                took[0],
                took[times - 1],
                worked[times / 2],
                advice.trays() == null ? "not worked out" : advice.trays() + " trays");
    }
}
