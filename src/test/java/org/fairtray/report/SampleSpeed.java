package org.fairtray.report;

import java.util.List;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.fairtray.findings.Speed;
import org.fairtray.trial.Trial;

/** Invented findings on speed. */
final class SampleSpeed {
    private SampleSpeed() {}

    static Speed of(Trial trial) {
        return new Speed(
                hazard(),
                List.of(new Findings.TermTest(
                        "soak", List.of("soak"), "tray", "f", 9.87, 1, 11.0, 0.21, 0.0094, null, 0.0101)),
                List.of(new Effect.OnMean(
                        "soak",
                        "8",
                        "0",
                        2.91,
                        3.54,
                        -0.63,
                        -1.02,
                        -0.24,
                        0.0094,
                        0.0094,
                        -1.02,
                        -0.24,
                        "none needed",
                        "t of the difference, 11 degrees of freedom",
                        -1.02,
                        -0.24)),
                trial.treatments().stream()
                        .map(t -> new Speed.Curve(t.levels(), 2.94, 2.71, 3.22, 0.561, 4.02, 2, 3, null))
                        .toList(),
                trial.treatments().stream()
                        .map(t -> new Speed.Indices(t.levels(), indices()))
                        .toList(),
                List.of(new Findings.Verdict("soak", "changed", "Soaking brought roots through 0.6 days earlier.")),
                List.of("Tray T07 was not read on day 2."));
    }

    private static List<Speed.Index> indices() {
        return List.of(
                new Speed.Index("mean time", 3.137, "days", "after an invented source"),
                new Speed.Index("spread index", null, "none", "after another invented source"));
    }

    private static Speed.Hazard hazard() {
        return new Speed.Hazard(
                List.of(new Logistic.Term.Plain("soak", List.of("soak"), 1, "likelihood ratio", 22.4, 0.0000022)),
                List.of(new Logistic.Coefficient("soak=8", 0.412, 0.0871, 0.241, 0.583)),
                -412.7,
                List.of(1));
    }

    /** Counts that tell nothing of the speed. */
    static Speed untold(Trial trial) {
        return new Speed(
                null,
                List.of(),
                List.of(),
                List.of(
                        new Speed.Curve(
                                trial.treatments().get(0).levels(),
                                null,
                                null,
                                null,
                                null,
                                null,
                                null,
                                1,
                                "All on day 1."),
                        new Speed.Curve(
                                trial.treatments().get(0).levels(),
                                null,
                                null,
                                null,
                                null,
                                null,
                                6,
                                null,
                                "Too late.")),
                List.of(),
                List.of(),
                List.of());
    }
}
