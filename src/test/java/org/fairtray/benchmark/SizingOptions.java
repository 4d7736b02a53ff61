package org.fairtray.benchmark;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.ClosedForm;
import org.fairtray.sizing.Option;
import org.fairtray.sizing.SizedLayout;

/**
 * The closed form of a thousand options of one plan, 40 numbers of trays by 25 numbers of seeds, in a virtual machine that has
 * just started and again in one that is warm.
 */
public final class SizingOptions {
    private static final String PLAN = """
            format: 1
            trial: A split plot of 24 trays
            factors:
              - {name: soak, levels: [0, 8]}
              - {name: cover, levels: [0, 3], applied_to: stack}
              - {name: mat, levels: [hemp, coir, pad]}
            place: [{name: shelf, count: 2}, {name: stack, count: 2}, {name: spot, count: 6}]
            counting: {days: [6], seeds_per_frame: 50}
            outcomes: [{name: through, kind: count, day: 6}]
            expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {stack: 0.3}}
            """;

    private SizingOptions() {}

    /** Prints seconds, and the sum of the powers so that none is left out. */
    public static void main(String[] arguments) {
        var trial = TrialFiles.of(Map.of("plan.yaml", PLAN.getBytes(StandardCharsets.UTF_8)))
                .trial();
        var sized = SizedLayout.of(trial, Randomisation.of(trial).draw(Generator.of(1)));
        for (int run = 0; run < 5; run++) {
            long start = System.nanoTime();
            var options = new ArrayList<Option>();
            for (int times = 1; times <= 40; times++) {
                for (int seeds = 5; seeds <= 125; seeds += 5) {
                    options.add(new Option(times, 1, seeds));
                }
            }
            double sum = sized.at(options).stream()
                    .flatMap(List::stream)
                    .mapToDouble(ClosedForm::power)
                    .sum();
            System.out.printf("%.3f s, sum %.6f%n", (System.nanoTime() - start) / 1e9, sum);
        }
    }
}
