package org.fairtray.benchmark;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.Draw;
import org.fairtray.files.TrialFolder;
import org.fairtray.sizing.InventedReadings;

/**
 * Writes an invented trial of any size into a folder, to time whole commands with: stacks of 20 trays, 2 soaking times by
 * 5 mats, 2 frames of 50 seeds on each day. See docs/benchmarks.md.
 */
public final class LargeTrial {
    private LargeTrial() {}

    /** Arguments: the folder, the number of stacks, of days. */
    public static void main(String[] args) {
        var folder = new TrialFolder(Path.of(args[0]));
        folder.writePlan(plan(Integer.parseInt(args[1]), Integer.parseInt(args[2])), true);
        var trial = folder.readPlan();
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        folder.writeLayout(
                trial, layout, new Draw(1, Generator.NAME, List.of(), "2026-01-01T00:00:00Z", "benchmark"), true);
        var truth = new InventedReadings(
                t -> 1.9, t -> t.level("soak").equals("8") ? 0.3 : -0.3, t -> 2.6, Map.of("stack", 0.25, "tray", 0.2));
        folder.writeReadings(trial, truth.of(trial, layout, Generator.of(2)), List.of(), true);
        var out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
        out.println(layout.trays().size() + " trays in " + args[0]);
    }

    private static String plan(int stacks, int days) {
        var list = new StringBuilder();
        for (int day = 1; day <= days; day++) {
            list.append(day == 1 ? "" : ", ").append(day);
        }
        return String.join(
                "\n",
                "format: 1",
                "trial: A large trial (invented)",
                "factors:",
                "  - {name: soak, unit: h, levels: [0, 8]}",
                "  - {name: mat, levels: [hemp, coir, jute, pad, felt]}",
                "place:",
                "  - {name: stack, count: " + stacks + "}",
                "  - {name: layer, count: 20}",
                "counting: {days: [" + list + "], frames_per_tray: 2, seeds_per_frame: 50, counts: cumulative}",
                "outcomes:",
                "  - {name: through, kind: count, of: sown, day: " + days + "}",
                "  - {name: germinated, kind: count, of: sown, day: " + Math.min(4, days) + "}",
                "expect: {worthwhile: 0.1}",
                "");
    }
}
