package org.fairtray.bench;

import java.nio.file.Path;
import java.util.Optional;
import org.fairtray.files.TrialFolder;
import org.fairtray.jobs.Laid;

/** An invented trial of two covers on six trays, laid out, for tests of the bench. */
public final class BeetTrial {
    /** Its plan, up to what is counted. */
    public static final String PLAN = """
            format: 1
            trial: Beet
            factors:
              - {name: cover, unit: kg, levels: [0, 3]}
            place:
              - {name: shelf, count: 3}
              - {name: spot, count: 2}
            """;

    private BeetTrial() {}

    /** Lays out a plan in a folder, always by the same seed. */
    public static Laid layOut(Path folder, String plan) {
        var trial = new TrialFolder(folder);
        trial.writePlan(plan, false);
        return Laid.of(trial, trial.readPlan(), 7, Optional.empty(), false, share -> {});
    }
}
